// Looks at the page as it stands on the screen.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';

const require = createRequire(join(import.meta.dirname, '../../web/package.json'));
const axe = readFileSync(require.resolve('axe-core/axe.min.js'), 'utf8');
export const { chromium } = require('playwright-core');

// Every piece of text inside `selector`, in the order it is read.
export function textsIn(page, selector) {
  return page.$$eval(
    ['h2', 'h3', 'p', 'li:not(.rows > li)', 'dt', 'dd', 'th', 'td']
      .map((tag) => `${selector} ${tag}`)
      .join(),
    (elements) => elements.map((e) => e.textContent.replace(/\s+/g, ' ').trim()),
  );
}

async function fitsAt(page, width) {
  await page.setViewportSize({ width, height: 640 });
  const { wide, small, unworded } = await page.evaluate(() => ({
    wide: document.documentElement.scrollWidth - document.documentElement.clientWidth,
    small: [...document.querySelectorAll('button')]
      .filter((button) => button.getBoundingClientRect().height < 56)
      .map((button) => button.textContent),
    unworded: document.body.textContent.match(/\[[a-z]+\.[a-z.-]+\]/g) ?? [],
  }));
  assert.ok(wide <= 0, `the page is ${wide} px too wide at ${width} px`);
  assert.deepEqual(small, [], `buttons lower than 56 px at ${width} px`);
  assert.deepEqual(unworded, [], 'keys without a sentence in the catalogue');
}

async function noAxeFindings(page) {
  await page.evaluate(axe);
  const { violations, passes } = await page.evaluate(() =>
    window.axe.run(document, {
      runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'],
      rules: { 'color-contrast-enhanced': { enabled: true } },
    }),
  );
  const ran = passes.map((rule) => rule.id);
  assert.ok(ran.includes('color-contrast-enhanced') && ran.includes('target-size'), ran.join());
  assert.deepEqual(
    violations.map((v) => `${v.id}: ${v.nodes[0].html}`),
    [],
  );
}

export async function fitForUse(page) {
  for (const width of [320, 360]) await fitsAt(page, width);
  await noAxeFindings(page);
}
