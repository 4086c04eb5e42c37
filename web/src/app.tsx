// The practice season on one screen: ask for the plan, choose a page, go back to the same spot.
import { useEffect, useState } from 'preact/hooks';
import type { Answer } from './answer';
import { useChosenPage } from './chosen_page';
import { Contents } from './contents';
import { ask } from './core_client';
import { PageView } from './page_view';
import type { Season } from './season';
import type { Words } from './words';

async function planPractice(): Promise<Answer> {
  const question = (await (await fetch('practice.json')).json()) as { season: Season };
  return ask('season.plan', { ...question, pages: true });
}

type State = 'start' | 'counting' | 'failed' | Answer;

interface Props {
  words: Words;
  kept: Promise<boolean>;
}

export function App({ words, kept }: Props) {
  const [state, setState] = useState<State>('start');
  const [ready, setReady] = useState(false);
  const { chosen, choose, back } = useChosenPage();
  useEffect(() => void kept.then(setReady), [kept]);

  const plan = async () => {
    if (state === 'counting') return;
    setState('counting');
    try {
      await kept;
      setState(await planPractice());
    } catch {
      setState('failed');
    }
  };

  const answer = typeof state === 'object' ? state : null;
  const page = answer?.pages?.find((p) => p.id === chosen);
  return (
    <main>
      <h1>{words('web.title')}</h1>
      <p class="practice">{words('web.practice')}</p>
      {page ? (
        <>
          <button onClick={back}>{words('web.back')}</button>
          <PageView page={page} careful={words('web.careful')} />
          <button onClick={back}>{words('web.back')}</button>
        </>
      ) : (
        <>
          <button id="plan" aria-disabled={state === 'counting'} onClick={plan}>
            {words(state === 'counting' ? 'web.counting' : 'web.plan')}
          </button>
          {state === 'failed' && <p role="alert">{words('web.failed')}</p>}
          {answer && <Contents answer={answer} words={words} choose={choose} />}
          <p id="offline" role="status" data-ready={ready}>
            {words(ready ? 'web.offline-ready' : 'web.offline-wait')}
          </p>
        </>
      )}
    </main>
  );
}
