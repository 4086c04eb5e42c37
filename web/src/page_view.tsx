// One page of the core, drawn for a small screen: a table of two columns stays a table, wider ones
// restack as rows, so nothing scrolls sideways.
import type { Block, Page } from './answer';

type TableBlock = Extract<Block, { kind: 'table' }>;

function NarrowTable({ block }: { block: TableBlock }) {
  return (
    <table>
      <thead>
        <tr>
          {block.columns.map((column, c) => (
            <th key={c} scope="col" class={column.align}>
              {column.title}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {block.rows.map((row, i) => (
          <tr key={i}>
            {row.map((cell, c) => (
              <td key={c} class={block.columns[c]?.align}>
                {cell}
              </td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function RestackedTable({ block }: { block: TableBlock }) {
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
        <p class="signed caution">
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
      return block.columns.length <= 2 ? (
        <NarrowTable block={block} />
      ) : (
        <RestackedTable block={block} />
      );
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
