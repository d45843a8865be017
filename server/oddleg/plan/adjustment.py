"""Generalised least squares with a full covariance: the one solver of the adjustment, free of the trade's words."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

# Half-width of the central 95 % of the normal distribution, in standard deviations: every "give or take" is this wide.
COVERAGE_95 = 1.96


@dataclass(frozen=True)
class Adjusted:
    """`unknowns` and their `covariance`; `residuals`: observed less adjusted. Units are those of what was handed in."""

    unknowns: np.ndarray
    covariance: np.ndarray
    residuals: np.ndarray


def solved(design: np.ndarray, observed: np.ndarray, covariance: np.ndarray) -> Adjusted:
    """The best linear unbiased estimate of x in `observed = design x + error`, the errors having `covariance`.

    Whitened by the Cholesky factor, then solved by QR, which keeps twice the digits of normal equations. The covariance
    of the estimate is (A' C^-1 A)^-1 and is not scaled by the residuals: what is handed in is held to be known.
    Raises ValueError where the covariance is not positive definite or an unknown is not determined.
    Source: Gauss-Markov theorem with correlated errors (Aitken), as in any text on adjustment.
    """
    from scipy.linalg import cholesky, qr, solve_triangular  # here, since it would slow every start of the program

    try:
        root = cholesky(covariance, lower=True)
    except np.linalg.LinAlgError as error:
        raise ValueError("the covariance of the observations is not positive definite") from error
    white, target = solve_triangular(root, design, lower=True), solve_triangular(root, observed, lower=True)
    count = design.shape[1]
    # The target stands beside the design, so that Q' target comes out as the last column and Q is never formed.
    (triangle,) = qr(np.column_stack((white, target)), mode="r")
    r, turned = triangle[:count, :count], triangle[:count, count]
    diagonal = np.abs(np.diag(r))
    if len(observed) < count or (diagonal <= 1e-12 * diagonal.max(initial=0.0)).any():
        raise ValueError("the observations do not determine every unknown")
    unknowns = solve_triangular(r, turned)
    inverse = solve_triangular(r, np.eye(count))
    return Adjusted(unknowns, inverse @ inverse.T, observed - design @ unknowns)
