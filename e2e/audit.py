"""What a screen is held against: axe-core with 7:1 contrast, targets of 48 px, keys of 64 px, no sliding sideways."""

from __future__ import annotations

from pathlib import Path

AXE = Path(__file__).parents[1] / "pwa" / "node_modules" / "axe-core" / "axe.min.js"
TARGET_PX = 48
KEY_PX = 64
# Both are off by default: contrast of 7:1 (WCAG 2.2, 1.4.6) and the size of targets (2.5.8).
RULES = {"color-contrast-enhanced": {"enabled": True}, "target-size": {"enabled": True}}
CONTRAST = ["color-contrast", "color-contrast-enhanced"]

FOUND_BY_AXE = """async ({rules, only}) => {
    const runOnly = only && { type: "rule", values: only };
    const { violations } = await axe.run(document, { rules, resultTypes: ["violations"], ...(runOnly && { runOnly }) });
    return violations.flatMap(({ id, nodes }) => nodes.map((node) =>
        `${id}: ${node.target.join(" ")}: ${node.failureSummary.replace(/\\s+/g, " ")}`));
}"""

# Stations on the plan are let off 48 px (axe holds them to 24): the list beside it has the same ones, as rows of 60
# (WCAG 2.5.8, "equivalent"). A control inside a label is hit by the label. Links within a sentence are as high as their
# line (let off there too), and what is out of sight until it has the focus is no target for a thumb.
TOO_SMALL = """({target, key}) => {
    const found = [];
    const box = document.querySelector("dialog[open]") ?? document;
    for (const one of box.querySelectorAll("a[href], button, input, select, textarea, summary, [role=button]")) {
        const { width, height, bottom } = (one.closest("label") ?? one).getBoundingClientRect();
        if (!width || !height || bottom <= 0 || !one.checkVisibility({ visibilityProperty: true })) continue;
        if (one.matches("p > a:not(.btn, .row), [data-station]")) continue;
        const least = one.closest(".keys, .sides") ? key : target;
        if (Math.min(width, height) < least - 0.01) {
            const name = one.getAttribute("aria-label") ?? one.textContent.trim() ?? "";
            const size = `${width.toFixed(1)} by ${height.toFixed(1)}`;
            found.push(`${one.localName}.${one.getAttribute("class")} "${name}" is ${size}, not ${least}`);
        }
    }
    return found;
}"""

WIDER_THAN_THE_SCREEN = """() => {
    const { scrollWidth, clientWidth } = document.documentElement;
    return scrollWidth > clientWidth ? [`the page is ${scrollWidth} px wide on a screen of ${clientWidth}`] : [];
}"""


def faults(page, colours_alone=False):
    """Everything that is wrong with the screen as it is now, one line each. `colours_alone`: of a screen that was held
    against all of it in other colours."""
    if not page.evaluate("'axe' in window"):
        page.evaluate(AXE.read_text(encoding="utf-8"))
    return [
        *page.evaluate(FOUND_BY_AXE, {"rules": RULES, "only": CONTRAST if colours_alone else None}),
        *page.evaluate(TOO_SMALL, {"target": TARGET_PX, "key": KEY_PX}),
        *page.evaluate(WIDER_THAN_THE_SCREEN),
    ]
