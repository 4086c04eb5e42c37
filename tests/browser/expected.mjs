// What the screen must say: the answer of the native core to the same question on the same day.
import { spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

function localDate() {
  const now = new Date();
  return new Date(now.getTime() - now.getTimezoneOffset() * 60_000).toISOString().slice(0, 10);
}

export function nativeAnswer(cli, dist, scratch) {
  const season = JSON.parse(readFileSync(join(dist, 'practice.json'), 'utf8'));
  const calls = [{ action: 'season.plan', body: { ...season, pages: true } }];
  const request = join(scratch, 'walk-request.json');
  writeFileSync(request, JSON.stringify({ open: { date: localDate() }, calls }));
  const run = spawnSync(cli, ['call', request], { encoding: 'utf8', maxBuffer: 1 << 28 });
  // Status 4: the plan is there, and asks something.
  if (run.status !== 0 && run.status !== 4) throw new Error(`${cli}: ${run.stdout}${run.stderr}`);
  return JSON.parse(run.stdout.trim().split('\n').at(-1));
}

function rowTexts(columns, row) {
  return row.flatMap((cell, i) => (cell === '' ? [] : [columns[i].title, cell]));
}

// Two columns stay a table; more restack, each cell behind its column's title.
function tableTexts({ columns, rows }) {
  if (columns.length <= 2) return [...columns.map((column) => column.title), ...rows.flat()];
  return rows.flatMap((row) => rowTexts(columns, row));
}

function blockTexts(block, careful) {
  if (block.kind === 'list') return block.items;
  if (block.kind === 'table') return tableTexts(block);
  return [block.kind === 'caution' ? `${careful} ${block.text}` : block.text];
}

const flat = (text) => text.replace(/\s+/g, ' ').trim();

export function pageTexts(page, careful) {
  return [page.title, ...page.blocks.flatMap((block) => blockTexts(block, careful))].map(flat);
}

export function problemTexts(problems, sentences) {
  return problems.map((p) => flat(`${sentences[`web.severity.${p.severity}`]} ${p.text}`));
}
