// Walks the page as a trainer without network: open once, stop the server, reload, plan, read.
// The pages on the screen must be those of the native core, word for word.
import { execFileSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:http';
import { createRequire } from 'node:module';
import { extname, join, normalize } from 'node:path';
import { test } from 'node:test';
import assert from 'node:assert/strict';

const root = join(import.meta.dirname, '../..');
const dist = join(root, 'web/dist');
const shots = join(root, 'build/shots');
const cli = process.env.WHEYFIELD_CLI ?? join(root, 'build/release/hosts/cli/wheyfield');
const require = createRequire(join(root, 'web/package.json'));
const { chromium } = require('playwright-core');

const types = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.json': 'application/json',
  '.wasm': 'application/wasm',
};

function serve() {
  const server = createServer((request, response) => {
    const path = normalize(new URL(request.url, 'http://localhost').pathname);
    const file = join(dist, path === '/' ? 'index.html' : path);
    if (!file.startsWith(dist) || !existsSync(file)) return response.writeHead(404).end();
    response.writeHead(200, { 'content-type': types[extname(file)] ?? 'application/octet-stream' });
    response.end(readFileSync(file));
  });
  return new Promise((resolve) => server.listen(0, '127.0.0.1', () => resolve(server)));
}

function stop(server) {
  server.closeAllConnections();
  return new Promise((resolve) => server.close(resolve));
}

// The plan as the native core gives it for the same question and the same day.
function nativePages() {
  const season = JSON.parse(readFileSync(join(dist, 'practice.json'), 'utf8'));
  const now = new Date();
  const date = new Date(now.getTime() - now.getTimezoneOffset() * 60_000).toISOString().slice(0, 10);
  const request = join(root, 'build/walk-request.json');
  const calls = [{ action: 'season.plan', body: { ...season, pages: true } }];
  writeFileSync(request, JSON.stringify({ open: { date }, calls }));
  let text;
  try {
    text = execFileSync(cli, ['call', request], { encoding: 'utf8', maxBuffer: 1 << 28 });
  } catch (failure) {
    text = failure.stdout; // questions in the data end with a status of their own
  }
  const answers = text.trim().split('\n').map((line) => JSON.parse(line));
  return answers.at(-1).pages;
}

function blockTexts(block) {
  if (block.kind === 'list') return block.items;
  if (block.kind === 'table') return block.rows.flat().filter((cell) => cell !== '');
  return [block.text];
}

const flat = (text) => text.replace(/\s+/g, ' ').trim();

async function noSidewaysScroll(page, width) {
  await page.setViewportSize({ width, height: 640 });
  const wide = await page.evaluate(
    () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
  );
  assert.ok(wide <= 0, `the page is ${wide} px too wide at ${width} px`);
}

async function noAxeFindings(page) {
  await page.evaluate(readFileSync(require.resolve('axe-core/axe.min.js'), 'utf8'));
  const { violations } = await page.evaluate(() =>
    window.axe.run(document, {
      runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'],
    }),
  );
  assert.deepEqual(violations.map((v) => `${v.id}: ${v.help}`), []);
}

async function readPage(page, expected) {
  await page.click(`[data-open="${expected.id}"]`);
  const shown = flat(await page.locator(`[data-page="${expected.id}"]`).textContent());
  assert.ok(shown.startsWith(flat(expected.title)), `title of ${expected.id}`);
  for (const text of expected.blocks.flatMap(blockTexts))
    assert.ok(shown.includes(flat(text)), `${expected.id} does not show: ${text}`);
}

test('the practice season is planned with the server stopped, word for word', async () => {
  mkdirSync(shots, { recursive: true });
  const server = await serve();
  const address = `http://127.0.0.1:${server.address().port}/`;
  const browser = await chromium.launch({
    executablePath: '/usr/bin/chromium',
    args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run',
      '--disable-background-networking', '--disable-component-update', '--disable-sync'],
  });
  try {
    const context = await browser.newContext({ viewport: { width: 360, height: 640 } });
    const page = await context.newPage();
    const faults = [];
    page.on('pageerror', (error) => faults.push(String(error)));
    await page.goto(address);
    await page.waitForSelector('#offline[data-ready="true"]', { timeout: 30_000 });

    await stop(server);
    await context.setOffline(true);
    await page.reload();
    await page.click('button');
    await page.waitForSelector('[data-open="summary"]', { timeout: 30_000 });
    await page.screenshot({ path: join(shots, 'contents.png') });
    await noAxeFindings(page);

    const pages = nativePages();
    const wanted = ['summary', 'uses', 'batches', 'doses', 'cautions'];
    wanted.push(pages.find((p) => p.id.startsWith('meeting-')).id);
    for (const id of wanted) {
      await readPage(page, pages.find((p) => p.id === id));
      await page.screenshot({ path: join(shots, `${id}.png`) });
      await noSidewaysScroll(page, 320);
      await noSidewaysScroll(page, 360);
      await noAxeFindings(page);
      await page.click('button');
    }
    assert.deepEqual(faults, []);
  } finally {
    await browser.close();
  }
});
