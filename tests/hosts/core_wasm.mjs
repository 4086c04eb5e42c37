// Loads core.wasm in node and gives its one function: call(name, jsonText) -> jsonText.
import { readFile } from 'node:fs/promises';

const imports = {
  env: { emscripten_notify_memory_growth() {} },
  wasi_snapshot_preview1: {
    proc_exit(code) {
      throw new Error(`core.wasm stopped with code ${code}`);
    },
    environ_sizes_get: () => 52, // WASI: not supported; the core reads no environment
    environ_get: () => 52,
  },
};

function textAt(memory, at) {
  const bytes = new Uint8Array(memory.buffer);
  return new TextDecoder('utf-8', { fatal: true }).decode(bytes.subarray(at, bytes.indexOf(0, at)));
}

export async function openCore(path) {
  const { instance } = await WebAssembly.instantiate(await readFile(path), imports);
  const core = instance.exports;
  core._initialize();

  function copyIn(text) {
    const bytes = new TextEncoder().encode(text);
    const at = core.core_alloc(bytes.length + 1);
    if (at === 0) throw new Error('core.wasm has no memory left');
    const memory = new Uint8Array(core.memory.buffer);
    memory.set(bytes, at);
    memory[at + bytes.length] = 0;
    return at;
  }

  return {
    call(name, json) {
      const nameAt = copyIn(name);
      const jsonAt = copyIn(json);
      const answerAt = core.core_call(nameAt, jsonAt);
      if (answerAt === 0) throw new Error('core.wasm has no memory left');
      const answer = textAt(core.memory, answerAt);
      for (const at of [nameAt, jsonAt, answerAt]) core.core_free(at);
      return answer;
    },
  };
}
