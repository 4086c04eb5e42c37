// The sentences of the page itself, from the same catalogue as the core's.

export type Words = (key: string) => string;

interface Catalogue {
  language: string;
  sentences: Record<string, string | Record<string, string>>;
}

export async function loadWords(url: string): Promise<Words> {
  const catalogue = (await (await fetch(url)).json()) as Catalogue;
  document.documentElement.lang = catalogue.language;
  return (key) => {
    const text = catalogue.sentences[key];
    return typeof text === 'string' ? text : `[${key}]`;
  };
}
