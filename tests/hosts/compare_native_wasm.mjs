// The same requests through the native program and through core.wasm must give the same answers.
// Requests: examples/requests/*.json, and the practice seasons examples/*.toml as the command line
// turns them into a request.
//
// Usage: node compare_native_wasm.mjs WHEYFIELD CORE_WASM GENERATED_DIR EXAMPLES_DIR
import { execFileSync } from 'node:child_process';
import { mkdtemp, readFile, readdir, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { openCore } from './core_wasm.mjs';
import { difference, leaves } from './difference.mjs';

const [program, wasm, generated, examples] = process.argv.slice(2);
const SEASON_DATE = '2027-02-01';

// Exit 1 (problems in the data) and 4 (a question) come with an answer; the others are failures.
function run(args) {
  try {
    return execFileSync(program, args, { encoding: 'utf8', maxBuffer: 1 << 28, stdio: 'pipe' });
  } catch (error) {
    if (error.status === null || ![1, 4].includes(error.status)) throw error;
    return error.stdout;
  }
}

async function files(folder, ending) {
  const names = (await readdir(folder)).filter((name) => name.endsWith(ending)).sort();
  if (names.length === 0) throw new Error(`${folder}: no ${ending} file`);
  return names.map((name) => join(folder, name));
}

function seasonRequest(file) {
  const body = JSON.parse(run(['season', 'plan', file, '--request']));
  const calls = [
    { action: 'season.plan', body: { ...body, pages: true } },
    { action: 'season.check', body },
  ];
  return { open: { date: SEASON_DATE, offset_min: 180, seed: 1 }, calls };
}

async function inWasm(request, bundle) {
  const core = await openCore(wasm);
  const opened = JSON.parse(core.call('open', JSON.stringify({ ...request.open, ...bundle })));
  if (opened.problems.some((problem) => problem.severity === 'error')) {
    throw new Error(`open failed: ${JSON.stringify(opened.problems)}`);
  }
  return request.calls.map((call) => core.call('call', JSON.stringify(call)));
}

function natively(file) {
  return run(['call', file]).split('\n').filter((line) => line !== '');
}

// Counts what was compared; throws at the first difference.
function compare(name, native, inside, calls) {
  if (native.length !== calls || inside.length !== calls) {
    throw new Error(`${name}: ${calls} calls, ${native.length} native, ${inside.length} wasm answers`);
  }
  let compared = 0;
  native.forEach((answer, index) => {
    const [a, b] = [JSON.parse(answer), JSON.parse(inside[index])];
    const found = difference(a, b);
    if (found) throw new Error(`${name}, call ${index + 1}, native against wasm: ${found}`);
    compared += leaves(a);
  });
  return compared;
}

async function main() {
  const json = async (name) => JSON.parse(await readFile(join(generated, name), 'utf8'));
  const bundle = { data: await json('data.json'), words: await json('words.en.json') };
  const scratch = await mkdtemp(join(tmpdir(), 'compare-'));
  const requests = await files(join(examples, 'requests'), '.json');
  for (const file of await files(examples, '.toml')) {
    const request = join(scratch, `${basename(file)}.json`);
    await writeFile(request, JSON.stringify(seasonRequest(file)));
    requests.push(request);
  }
  for (const file of requests) {
    const request = JSON.parse(await readFile(file, 'utf8'));
    const inside = await inWasm(request, bundle);
    const compared = compare(basename(file), natively(file), inside, request.calls.length);
    if (compared === 0) throw new Error(`${basename(file)}: nothing to compare`);
    console.log(`${basename(file)}: ${request.calls.length} calls, ${compared} values equal`);
  }
  await rm(scratch, { recursive: true });
}

await main().catch((error) => {
  console.error(error.message);
  process.exit(1);
});
