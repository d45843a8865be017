"""Build hook: a wheel carries the built PWA as oddleg/pwa, so that it serves phones without Node."""

from pathlib import Path

from hatchling.builders.hooks.plugin.interface import BuildHookInterface


class WheelCarriesPwa(BuildHookInterface):
    def initialize(self, version, build_data):
        if version == "editable":
            return
        built = Path(self.root) / "pwa" / "dist"
        if not (built / "sw.js").is_file():
            raise RuntimeError("pwa/dist holds no built PWA: run `npm ci && npm run build` in pwa/ first")
        build_data["force_include"][str(built)] = "oddleg/pwa"
