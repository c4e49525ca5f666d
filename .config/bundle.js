// Bundles the commands and the server into build/, so that a command starts in a quarter of a second.
// Splitting keeps mathjs, Handlebars and Express in chunks of their own, loaded only by what needs them.
import { build } from 'esbuild'

await build({
  absWorkingDir: new URL('..', import.meta.url).pathname,
  entryPoints: { cli: 'src/cli/main.ts', pageWorker: 'src/server/pageWorker.ts' },
  outdir: 'build',
  bundle: true,
  splitting: true,
  minify: true,
  format: 'esm',
  platform: 'node',
  target: 'node20',
  legalComments: 'linked',
  // CommonJS packages inside an ES module bundle look for require at run time.
  banner: { js: "import { createRequire as bundleRequire } from 'node:module'; const require = bundleRequire(import.meta.url);" },
})
