// What the page reads of an answer of the core.

export type Block =
  | { kind: 'heading' | 'text' | 'caution'; text: string }
  | { kind: 'list'; items: string[] }
  | { kind: 'table'; columns: { title: string; align: 'left' | 'right' }[]; rows: string[][] };

export interface Page {
  id: string;
  title: string;
  blocks: Block[];
}

export interface Problem {
  code: string;
  severity: 'error' | 'question' | 'notice';
  field: string;
  value: string;
  text: string;
}

export interface Answer {
  schema: number;
  problems: Problem[];
  pages?: Page[];
}

// The only message that the page sends to its worker: one question, answered once.
export interface Question {
  id: number;
  action: 'season.plan';
  body: object;
}

export interface Reply {
  id: number;
  answer?: Answer;
  failure?: string;
}
