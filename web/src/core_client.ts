// The page's side of the worker: ask, and get a promise of the answer. The worker starts with the
// first question, so that what the service worker has kept by then is not fetched twice.
import type { Answer, Question, Reply } from './answer';

const waiting = new Map<number, (reply: Omit<Reply, 'id'>) => void>();
let worker: Worker | null = null;
let last = 0;

function settle(id: number, reply: Omit<Reply, 'id'>) {
  waiting.get(id)?.(reply);
  waiting.delete(id);
}

function start(): Worker {
  const started = new Worker(new URL('./core_worker.ts', import.meta.url), { type: 'module' });
  started.addEventListener('message', ({ data }: MessageEvent<Reply>) => settle(data.id, data));
  started.addEventListener('error', (event) => {
    for (const id of [...waiting.keys()]) settle(id, { failure: event.message });
    worker = null;
  });
  return started;
}

export function ask(action: Question['action'], body: object): Promise<Answer> {
  worker ??= start();
  const id = ++last;
  const answer = new Promise<Answer>((resolve, reject) => {
    waiting.set(id, (reply) =>
      reply.answer ? resolve(reply.answer) : reject(new Error(reply.failure)),
    );
  });
  worker.postMessage({ id, action, body } satisfies Question);
  return answer;
}
