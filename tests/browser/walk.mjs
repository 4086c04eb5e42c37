// Walks the page as a trainer without network: open once, stop the server, reload, plan, read.
// What the screen says must be what the native core says, word for word and in its order.
//
// WHEYFIELD_CLI names the native program; web/dist must have been built before (npm run build).
import assert from 'node:assert/strict';
import { mkdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { after, before, test } from 'node:test';
import { nativeAnswer, pageTexts, problemTexts } from './expected.mjs';
import { chromium, fitForUse, textsIn } from './screen.mjs';
import { serve } from './server.mjs';

const root = join(import.meta.dirname, '../..');
const dist = join(root, 'web/dist');
const shots = join(root, 'build/shots');
const cli = process.env.WHEYFIELD_CLI ?? join(root, 'build/release/hosts/cli/wheyfield');
const flags = ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run',
  '--disable-background-networking', '--disable-component-update', '--disable-sync'];

const { sentences } = JSON.parse(readFileSync(join(dist, 'words.en.json'), 'utf8'));
const faults = [];
let browser, context, page, server, expected;

const shot = (name) => page.screenshot({ path: join(shots, `${name}.png`) });
const y = () => page.evaluate(() => window.scrollY);

before(async () => {
  mkdirSync(shots, { recursive: true });
  expected = nativeAnswer(cli, dist, join(root, 'build'));
  server = await serve(dist);
  browser = await chromium.launch({ executablePath: '/usr/bin/chromium', args: flags });
  context = await browser.newContext({ viewport: { width: 360, height: 640 } });
  page = await context.newPage();
  page.setDefaultTimeout(15_000);
  page.on('pageerror', (error) => faults.push(String(error)));
  page.on('console', (message) => message.type() === 'error' && faults.push(message.text()));
});

after(async () => {
  await browser?.close();
  await server?.stop();
});

test('the first visit keeps everything; the large files come once', async () => {
  await page.goto(server.address);
  await page.waitForSelector('#offline[data-ready="true"]');
  for (const file of ['/core.wasm', '/data.json', '/practice.json'])
    assert.equal(server.asked.filter((asked) => asked === file).length, 1, file);
  await fitForUse(page);
  await shot('start');
});

test('a later visit asks the server only whether there is a new version', async () => {
  server.asked.length = 0;
  await page.reload();
  await page.click('#plan');
  await page.waitForSelector('[data-open="summary"]');
  const others = server.asked.filter((asked) => asked !== '/service-worker.js');
  assert.deepEqual(others, []);
});

test('with the server stopped the season is planned', async () => {
  await server.stop();
  await context.setOffline(true);
  await assert.rejects(fetch(server.address));
  await page.reload();
  await page.click('#plan');
  await page.waitForSelector('[data-open="summary"]');
  assert.deepEqual(await textsIn(page, '.problems'), problemTexts(expected.problems, sentences));
  assert.deepEqual(
    await page.$$eval('[data-open]', (rows) => rows.map((row) => row.textContent)),
    expected.pages.map((p) => p.title),
  );
  await fitForUse(page);
  await shot('contents');
});

test('every page says what the native core says', async () => {
  assert.ok(expected.pages.some((p) => p.id.startsWith('meeting-')));
  for (const wanted of expected.pages) {
    await page.click(`[data-open="${wanted.id}"]`);
    const shown = await textsIn(page, `[data-page="${wanted.id}"]`);
    assert.deepEqual(shown, pageTexts(wanted, sentences['web.careful']), wanted.id);
    await page.click('button');
  }
});

test('pages fit a small screen and can be read by all', async () => {
  const meeting = expected.pages.find((p) => /^meeting-.*-1[0-9]$/.test(p.id)).id;
  for (const id of ['summary', 'uses', 'batches', meeting, 'doses', 'cautions', 'cost']) {
    await page.click(`[data-open="${id}"]`);
    await fitForUse(page);
    await shot(id.startsWith('meeting') ? 'meeting' : id);
    await page.click('button');
  }
});

test('both ways back lead to the row that was left', async () => {
  for (const back of [() => page.click('button'), () => page.goBack()]) {
    const row = page.locator('[data-open="cost"]');
    await row.scrollIntoViewIfNeeded();
    const left = await y();
    assert.ok(left > 0);
    await row.click();
    assert.equal(await y(), 0);
    assert.equal(await page.evaluate(() => document.activeElement.tagName), 'H2');
    await back();
    await row.waitFor();
    assert.equal(await y(), left);
    assert.equal(await page.evaluate(() => document.activeElement.dataset.open), 'cost');
  }
});

test('nothing went wrong on the way', () => assert.deepEqual(faults, []));
