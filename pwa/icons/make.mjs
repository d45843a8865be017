// Draws the PNG icons from the SVG ones with a Chromium that is on the machine. Run by hand when a drawing changes;
// the PNGs are committed, so that a build needs no browser.
import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

const here = new URL(".", import.meta.url).pathname;
const chromium = process.env.CHROMIUM ?? "/usr/bin/chromium";
const work = mkdtempSync(join(tmpdir(), "icons-"));
for (const [drawing, size, png] of [
  ["icon", 192, "icon-192.png"],
  ["icon", 512, "icon-512.png"],
  ["maskable", 512, "maskable-512.png"],
  ["maskable", 180, "touch-180.png"],
]) {
  const svg = readFileSync(join(here, `${drawing}.svg`), "utf8");
  const page = join(work, `${png}.html`);
  writeFileSync(page, `<!doctype html><style>*{margin:0}svg{display:block;width:${size}px;height:${size}px}</style>${svg}`);
  execFileSync(chromium, [
    "--headless", "--no-sandbox", "--hide-scrollbars", "--default-background-color=00000000", "--no-first-run",
    "--disable-background-networking", "--disable-component-update", "--disable-sync", "--disable-quic",
    `--window-size=${size},${size}`, `--screenshot=${join(here, png)}`, `file://${page}`,
  ], { stdio: "ignore" });
  console.log(`icons/${png}`);
}
rmSync(work, { recursive: true });
