// Builds the page and lays beside it what the core needs: core.wasm, data, words and the practice
// season. The service worker gets the list of every file and a version made of their contents.
import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { defineConfig, type Plugin } from 'vite';

const root = import.meta.dirname;
const wasm = process.env.WHEYFIELD_WASM ?? join(root, '../build/wasm/hosts/wasm/core.wasm');
const generated = process.env.WHEYFIELD_GENERATED ?? join(root, '../build/release/generated');
const cli = process.env.WHEYFIELD_CLI ?? join(root, '../build/release/hosts/cli/wheyfield');
const season = join(root, '../examples/practice.toml');

function files(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true })
    .flatMap((e) => (e.isDirectory() ? files(join(folder, e.name)) : [join(folder, e.name)]))
    .sort();
}

function practiceSeason(): Buffer {
  return execFileSync(cli, ['season', 'plan', season, '--request']);
}

function offline(): Plugin {
  let out = 'dist';
  return {
    name: 'wheyfield-offline',
    apply: 'build',
    configResolved: (config) => void (out = join(config.root, config.build.outDir)),
    closeBundle() {
      writeFileSync(join(out, 'core.wasm'), readFileSync(wasm));
      for (const name of ['data.json', 'words.en.json'])
        writeFileSync(join(out, name), readFileSync(join(generated, name)));
      writeFileSync(join(out, 'practice.json'), practiceSeason());
      const kept = files(out).filter((f) => !f.endsWith('service-worker.js'));
      const digest = createHash('sha256');
      for (const file of kept) digest.update(readFileSync(file));
      const names = kept.map((f) => `./${relative(out, f)}`);
      const worker = readFileSync(join(root, 'src/service-worker.js'), 'utf8')
        .replace('__FILES__', JSON.stringify(['./', ...names]))
        .replace('__VERSION__', JSON.stringify(digest.digest('hex').slice(0, 16)));
      writeFileSync(join(out, 'service-worker.js'), worker);
    },
  };
}

export default defineConfig({
  root,
  base: './',
  build: { target: 'chrome95', outDir: 'dist', emptyOutDir: true, modulePreload: false },
  worker: { format: 'es' },
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  plugins: [offline()],
});
