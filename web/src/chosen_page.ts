// Which page of the plan is open. Opening one is a step in the browser's history, so the phone's
// own back key returns to the list, at the row that was left.
import { useEffect, useLayoutEffect, useRef, useState } from 'preact/hooks';

interface ChosenPage {
  chosen: string | null;
  choose: (id: string) => void;
  back: () => void;
}

interface Spot {
  id: string;
  y: number;
}

function arrive(selector: string, y: number) {
  document.querySelector<HTMLElement>(selector)?.focus({ preventScroll: true });
  window.scrollTo(0, y);
}

export function useChosenPage(): ChosenPage {
  const [chosen, setChosen] = useState<string | null>(null);
  const left = useRef<Spot | null>(null);

  useEffect(() => {
    history.scrollRestoration = 'manual';
    history.replaceState(null, '');
    const moved = (event: PopStateEvent) =>
      setChosen((event.state as { page: string } | null)?.page ?? null);
    window.addEventListener('popstate', moved);
    return () => window.removeEventListener('popstate', moved);
  }, []);

  useLayoutEffect(() => {
    if (chosen !== null) arrive('article h2', 0);
    else if (left.current) arrive(`[data-open="${left.current.id}"]`, left.current.y);
  }, [chosen]);

  return {
    chosen,
    choose: (id) => {
      left.current = { id, y: window.scrollY };
      history.pushState({ page: id }, '');
      setChosen(id);
    },
    back: () => history.back(),
  };
}
