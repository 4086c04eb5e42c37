// Owns the core, away from the page: opens it once, then answers questions in order.
import type { Answer, Question, Reply } from './answer';
import { loadCore, type CoreCall } from './core_loader';

async function open(): Promise<CoreCall> {
  const text = (name: string) => fetch(name).then((response) => response.text());
  const [core, data, words] = await Promise.all([
    loadCore('../core.wasm'),
    text('../data.json'),
    text('../words.en.json'),
  ]);
  const now = new Date();
  const offset = -now.getTimezoneOffset();
  const date = new Date(now.getTime() + offset * 60_000).toISOString().slice(0, 10);
  const session = `{"data":${data},"words":${words},"date":"${date}","offset_min":${offset},"seed":1}`;
  const answer = JSON.parse(core('open', session)) as Answer;
  const refused = answer.problems.find((problem) => problem.severity === 'error');
  if (refused) throw new Error(refused.text);
  return core;
}

const opened = open();

self.addEventListener('message', async (event: MessageEvent<Question>) => {
  const { id, action, body } = event.data;
  let reply: Reply;
  try {
    const core = await opened;
    reply = { id, answer: JSON.parse(core('call', JSON.stringify({ action, body }))) as Answer };
  } catch (error) {
    reply = { id, failure: String(error) };
  }
  self.postMessage(reply);
});
