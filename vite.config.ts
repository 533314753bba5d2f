import { readdirSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import react from "@vitejs/plugin-react";
import { defineConfig, type Plugin } from "vite";

const root = dirname(fileURLToPath(import.meta.url));
const exampleFolder = join(root, "examples");

const exampleNames = (): string[] =>
  readdirSync(exampleFolder)
    .filter((name) => /\.(csv|json|txt)$/.test(name))
    .sort();

/** The invented recordings for a first click stand once, in `examples`; the build serves them beside their list. */
const examples = (): Plugin => ({
  name: "examples",
  generateBundle() {
    for (const name of exampleNames()) {
      this.emitFile({ type: "asset", fileName: `examples/${name}`, source: readFileSync(join(exampleFolder, name)) });
    }
    this.emitFile({ type: "asset", fileName: "examples/list.json", source: JSON.stringify(exampleNames()) });
  },
});

/** What the server sends too: nothing inline, nothing from elsewhere, no eval. */
const policy = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self'",
  "font-src 'self'",
  "img-src 'self'",
  "connect-src 'self'",
  "worker-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
].join("; ");

/** Core, work and report only ever give values: what nobody asks of them need not be sent. */
const treeshake = { moduleSideEffects: (id: string) => !/\/src\/(?:core|work|report)\//.test(id) };

export default defineConfig({
  root: join(root, "src/web"),
  base: "/",
  publicDir: false,
  plugins: [react(), examples()],
  worker: { format: "es", rolldownOptions: { treeshake } },
  build: {
    outDir: join(root, "dist/web"),
    emptyOutDir: true,
    // No data: addresses, so that the policy needs none.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    rolldownOptions: { treeshake },
  },
  preview: { headers: { "Content-Security-Policy": policy } },
});
