// One page of the core, drawn for a small screen: tables restack as rows, so nothing scrolls
// sideways.
import type { Block, Page } from './answer';

function Table({ block }: { block: Extract<Block, { kind: 'table' }> }) {
  return (
    <ul class="rows">
      {block.rows.map((row, i) => (
        <li key={i}>
          <dl>
            {row.map((cell, c) =>
              cell === '' ? null : (
                <div key={c}>
                  <dt>{block.columns[c]?.title}</dt>
                  <dd>{cell}</dd>
                </div>
              ),
            )}
          </dl>
        </li>
      ))}
    </ul>
  );
}

function BlockView({ block, careful }: { block: Block; careful: string }) {
  switch (block.kind) {
    case 'heading':
      return <h3>{block.text}</h3>;
    case 'text':
      return <p>{block.text}</p>;
    case 'caution':
      return (
        <p class="caution">
          <strong>{careful}</strong> {block.text}
        </p>
      );
    case 'list':
      return (
        <ul>
          {block.items.map((item, i) => (
            <li key={i}>{item}</li>
          ))}
        </ul>
      );
    case 'table':
      return <Table block={block} />;
  }
}

export function PageView({ page, careful }: { page: Page; careful: string }) {
  return (
    <article data-page={page.id}>
      <h2 tabIndex={-1}>{page.title}</h2>
      {page.blocks.map((block, i) => (
        <BlockView key={i} block={block} careful={careful} />
      ))}
    </article>
  );
}
