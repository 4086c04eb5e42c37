// Loads core.wasm and gives its one function. Texts are UTF-8 ended by a zero byte; the memory
// buffer is looked up again after each call, for it moves when the memory grows.

interface CoreExports {
  memory: WebAssembly.Memory;
  _initialize(): void;
  core_alloc(bytes: number): number;
  core_free(at: number): void;
  core_call(name: number, json: number): number;
}

export type CoreCall = (name: 'open' | 'call', json: string) => string;

const imports = {
  env: { emscripten_notify_memory_growth: () => undefined },
  wasi_snapshot_preview1: {
    proc_exit: (code: number) => {
      throw new Error(`core stopped with code ${code}`);
    },
    environ_sizes_get: () => 52,
    environ_get: () => 52,
  },
};

export async function loadCore(url: string): Promise<CoreCall> {
  const { instance } = await WebAssembly.instantiateStreaming(fetch(url), imports);
  const core = instance.exports as unknown as CoreExports;
  core._initialize();

  const copyIn = (text: string): number => {
    const bytes = new TextEncoder().encode(text);
    const at = core.core_alloc(bytes.length + 1);
    if (at === 0) throw new Error('out of memory');
    const memory = new Uint8Array(core.memory.buffer);
    memory.set(bytes, at);
    memory[at + bytes.length] = 0;
    return at;
  };
  const textAt = (at: number): string => {
    const memory = new Uint8Array(core.memory.buffer);
    return new TextDecoder().decode(memory.subarray(at, memory.indexOf(0, at)));
  };

  return (name, json) => {
    const nameAt = copyIn(name);
    const jsonAt = copyIn(json);
    const answerAt = core.core_call(nameAt, jsonAt);
    if (answerAt === 0) throw new Error('out of memory');
    const answer = textAt(answerAt);
    for (const at of [nameAt, jsonAt, answerAt]) core.core_free(at);
    return answer;
  };
}
