// What to know before reading the plan, and the list of its pages.
import type { Answer, Problem } from './answer';
import type { Words } from './words';

function ProblemList({ problems, words }: { problems: Problem[]; words: Words }) {
  if (problems.length === 0) return null;
  return (
    <section>
      <h2>{words('web.to-know')}</h2>
      <ul class="problems">
        {problems.map((problem, i) => (
          <li key={i} class={`signed ${problem.severity}`}>
            <strong>{words(`web.severity.${problem.severity}`)}</strong> {problem.text}
          </li>
        ))}
      </ul>
    </section>
  );
}

interface Props {
  answer: Answer;
  words: Words;
  choose: (id: string) => void;
}

export function Contents({ answer, words, choose }: Props) {
  return (
    <>
      <ProblemList problems={answer.problems} words={words} />
      {answer.pages && (
        <nav aria-label={words('web.pages')}>
          <h2>{words('web.pages')}</h2>
          {answer.pages.map((page) => (
            <button key={page.id} data-open={page.id} onClick={() => choose(page.id)}>
              {page.title}
            </button>
          ))}
        </nav>
      )}
    </>
  );
}
