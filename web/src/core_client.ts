// The page's side of the worker: ask, and get a promise of the answer.
import type { Answer, Question, Reply } from './answer';

const worker = new Worker(new URL('./core_worker.ts', import.meta.url), { type: 'module' });
const waiting = new Map<number, (reply: Reply) => void>();
let last = 0;

worker.addEventListener('message', (event: MessageEvent<Reply>) => {
  waiting.get(event.data.id)?.(event.data);
  waiting.delete(event.data.id);
});

export function ask(action: Question['action'], body: object): Promise<Answer> {
  const id = ++last;
  return new Promise((resolve, reject) => {
    waiting.set(id, (reply) =>
      reply.answer ? resolve(reply.answer) : reject(new Error(reply.failure)),
    );
    worker.postMessage({ id, action, body } satisfies Question);
  });
}
