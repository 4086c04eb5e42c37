// The practice season on one screen: ask for the plan, choose a page, go back to the same spot.
import { useEffect, useRef, useState } from 'preact/hooks';
import type { Answer } from './answer';
import { ask } from './core_client';
import { PageView } from './page_view';
import type { Season } from './season';
import type { Words } from './words';

async function planPractice(): Promise<Answer> {
  const question = (await (await fetch('practice.json')).json()) as { season: Season };
  return ask('season.plan', { ...question, pages: true });
}

type State = 'start' | 'counting' | 'failed' | Answer;

export function App({ words, offline }: { words: Words; offline: Promise<boolean> }) {
  const [state, setState] = useState<State>('start');
  const [chosen, setChosen] = useState<string | null>(null);
  const [ready, setReady] = useState(false);
  const spot = useRef(0);
  useEffect(() => void offline.then(setReady), [offline]);

  const plan = async () => {
    setState('counting');
    try {
      setState(await planPractice());
    } catch {
      setState('failed');
    }
  };
  const choose = (id: string) => {
    spot.current = window.scrollY;
    setChosen(id);
    window.scrollTo(0, 0);
  };
  const back = () => {
    setChosen(null);
    requestAnimationFrame(() => window.scrollTo(0, spot.current));
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
          <button disabled={state === 'counting'} onClick={plan}>
            {words(state === 'counting' ? 'web.counting' : 'web.plan')}
          </button>
          {state === 'failed' && <p role="alert">{words('web.failed')}</p>}
          {answer && <Contents answer={answer} words={words} choose={choose} />}
          <p id="offline" data-ready={ready}>
            {words(ready ? 'web.offline-ready' : 'web.offline-wait')}
          </p>
        </>
      )}
    </main>
  );
}

function Contents(props: { answer: Answer; words: Words; choose: (id: string) => void }) {
  const { answer, words, choose } = props;
  return (
    <>
      {answer.problems.length > 0 && (
        <section aria-label={words('web.to-know')}>
          <h2>{words('web.to-know')}</h2>
          <ul>
            {answer.problems.map((problem, i) => (
              <li key={i}>{problem.text}</li>
            ))}
          </ul>
        </section>
      )}
      <nav aria-label={words('web.pages')}>
        {answer.pages?.map((page) => (
          <button key={page.id} data-open={page.id} onClick={() => choose(page.id)}>
            {page.title}
          </button>
        ))}
      </nav>
    </>
  );
}
