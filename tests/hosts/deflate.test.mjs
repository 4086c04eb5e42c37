// The browser's CompressionStream and the program's zlib must read each other's team files.
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import test from 'node:test';

const pipe = process.env.WHEYFIELD_DEFLATE_PIPE ?? 'build/release/tests/deflate_pipe';
const texts = {
  nothing: '',
  notes: '{"at":"1804413600 12 3588","counter":"7 1 3","text":"2,5 L, 名 é"}',
  'a million bytes': Array.from({ length: 100_000 }, (_, i) => `${(i * 7919) % 99991} cm\n`).join(''),
};

function native(what, bytes) {
  const run = spawnSync(pipe, [what], { input: bytes, maxBuffer: 1 << 26 });
  assert.equal(run.status, 0, `${pipe} ${what}: ${run.error ?? run.status}`);
  return run.stdout;
}

async function browser(stream, bytes) {
  const out = new Blob([bytes]).stream().pipeThrough(stream);
  return Buffer.from(await new Response(out).arrayBuffer());
}

for (const [name, text] of Object.entries(texts)) {
  test(`${name}: packed by the program, unpacked by the browser's stream`, async () => {
    const bytes = native('pack', text);
    const back = await browser(new DecompressionStream('deflate'), bytes);
    assert.equal(back.toString(), text);
  });

  test(`${name}: packed by the browser's stream, unpacked by the program`, async () => {
    const bytes = await browser(new CompressionStream('deflate'), text);
    assert.equal(native('unpack', bytes).toString(), text);
  });
}

test('bytes with a flipped bit are refused by the program', async () => {
  const bytes = await browser(new CompressionStream('deflate'), texts.notes);
  bytes[bytes.length - 1] ^= 1;
  assert.equal(spawnSync(pipe, ['unpack'], { input: bytes }).status, 1);
});
