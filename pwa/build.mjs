// Builds pwa/dist: one page, one script, one style sheet, fonts, icons, manifest and the service worker that keeps them.
// Whatever warns, fails: a file left out of the worker would only be missed on site, with no signal.
import { build } from "esbuild";
import { cp, mkdir, readdir, readFile, rm, stat } from "node:fs/promises";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { gzipSync } from "node:zlib";
import { generateSW } from "workbox-build";

const here = dirname(fileURLToPath(import.meta.url));
const dist = join(here, "dist");
const fonts = join(here, "..", "server", "oddleg", "drawings", "fonts");
const LARGEST_FILE_BYTES = 2 * 1024 * 1024; // beyond it the worker would leave a file out

class BuildStops extends Error {}

/** Files under a folder, as paths relative to it, in one order everywhere. */
async function files(folder, below = "") {
  const found = [];
  for (const entry of await readdir(join(folder, below), { withFileTypes: true })) {
    const path = below ? `${below}/${entry.name}` : entry.name;
    if (entry.isDirectory()) found.push(...(await files(folder, path)));
    else found.push(path);
  }
  return found.sort();
}

async function needed(path, what) {
  try {
    return await stat(path);
  } catch {
    throw new BuildStops(`${what} is missing: ${path}`);
  }
}

async function bundle() {
  const { warnings } = await build({
    absWorkingDir: here,
    entryPoints: { app: "src/main.js" },
    outdir: dist,
    bundle: true,
    format: "esm",
    target: ["es2022", "safari16", "chrome108", "firefox115"],
    minify: true,
    legalComments: "none",
    external: ["/fonts/*", "fonts/*"], // the style sheet names the fonts by their address in dist
    define: { APP_VERSION: JSON.stringify(await version()) },
    logLevel: "silent",
  });
  if (warnings.length) throw new BuildStops(warnings.map((w) => `${w.location?.file ?? "?"}: ${w.text}`).join("\n"));
}

async function version() {
  return JSON.parse(await readFile(join(here, "package.json"), "utf8")).version;
}

async function copies() {
  await needed(join(here, "index.html"), "the page");
  await needed(fonts, "the folder of fonts");
  // The licence of the fonts goes wherever they go.
  const faces = (await readdir(fonts)).filter((name) => name.endsWith(".ttf")).sort();
  if (!faces.length) throw new BuildStops(`no .ttf font in ${fonts}`);
  await mkdir(join(dist, "fonts"), { recursive: true });
  for (const face of [...faces, "OFL.txt"]) await cp(join(fonts, face), join(dist, "fonts", face));
  await mkdir(join(dist, "icons"));
  for (const icon of await readdir(join(here, "icons"))) {
    if (/\.(svg|png)$/.test(icon)) await cp(join(here, "icons", icon), join(dist, "icons", icon));
  }
  await cp(join(here, "index.html"), join(dist, "index.html"));
  await cp(join(here, "manifest.webmanifest"), join(dist, "manifest.webmanifest"));
}

/** Every address that the page, its style sheet and the manifest name must be a file in dist. */
async function checkAddresses() {
  const page = await readFile(join(dist, "index.html"), "utf8");
  const style = await readFile(join(dist, "app.css"), "utf8");
  const manifest = JSON.parse(await readFile(join(dist, "manifest.webmanifest"), "utf8"));
  const named = [
    ...[...page.matchAll(/(?:src|href)="([^"#]+)"/g)].map((m) => m[1]),
    ...[...style.matchAll(/url\(["']?([^"')]+)["']?\)/g)].map((m) => m[1]).filter((url) => !url.startsWith("data:")),
    ...manifest.icons.map((icon) => icon.src),
  ];
  for (const address of named) {
    if (/^(https?:)?\/\//.test(address)) throw new BuildStops(`loaded from elsewhere: ${address}`);
    await needed(join(dist, address.replace(/^\.?\//, "")), `what "${address}" names`);
  }
}

async function worker() {
  const { warnings, count } = await generateSW({
    globDirectory: dist,
    globPatterns: ["**/*"],
    swDest: join(dist, "sw.js"),
    inlineWorkboxRuntime: true,
    sourcemap: false,
    mode: "production",
    cleanupOutdatedCaches: true,
    clientsClaim: true,
    skipWaiting: false, // a new app waits until the fitter says so: a form may be half filled in
    navigateFallback: "index.html",
    navigateFallbackDenylist: [/^\/api\//],
    maximumFileSizeToCacheInBytes: LARGEST_FILE_BYTES,
  });
  if (warnings.length) throw new BuildStops(warnings.join("\n"));
  const shell = (await files(dist)).filter((path) => path !== "sw.js");
  if (count !== shell.length) throw new BuildStops(`the worker keeps ${count} of ${shell.length} files`);
}

async function printSizes() {
  let bytes = 0;
  let zipped = 0;
  for (const path of await files(dist)) {
    const content = await readFile(join(dist, path));
    const gz = gzipSync(content, { level: 9 }).length;
    bytes += content.length;
    zipped += gz;
    console.log(`${path.padEnd(40)}${kB(content.length)}${kB(gz)} gz`);
  }
  console.log(`${"PWA size".padEnd(40)}${kB(bytes)}${kB(zipped)} gz`);
}

const kB = (bytes) => `${(bytes / 1000).toFixed(1)} kB`.padStart(11);

try {
  await rm(dist, { recursive: true, force: true });
  await mkdir(dist, { recursive: true });
  await bundle();
  await copies();
  await checkAddresses();
  await worker();
  await printSizes();
} catch (error) {
  await rm(join(dist, "sw.js"), { force: true }); // a half-built PWA must not pass for a built one
  console.error(error instanceof BuildStops ? `pwa: ${error.message}` : error);
  process.exit(1);
}
