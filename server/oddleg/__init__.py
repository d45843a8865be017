"""Setting out and fitting cabinets in rooms that are not level."""

import os

# One thread for linear algebra. Our matrices have some hundred rows: a second thread gains nothing there, and on a
# machine with other work to do the two wait for each other and take about ten times as long. OpenBLAS reads it when
# numpy is first imported, so it is set before any of our modules imports numpy. Whoever has set it has their way.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
