/** Keys within a table: one cell of it can be reached by Tab, and from there arrows, Home and End go to the others. */
export function walkByKeys(table: HTMLTableElement, wanted: string | undefined): void {
  const cells = [...table.rows].map(row => [...row.cells].map(targetIn));
  const all = cells.flat();
  for (const one of all) one.tabIndex = -1;
  const start = all.find(one => one.dataset.key === wanted) ?? cells[1]?.[0] ?? all[0];
  if (start) start.tabIndex = 0;
  const enter = (one: HTMLElement) => {
    for (const other of all) other.tabIndex = -1;
    one.tabIndex = 0;
  };
  table.addEventListener('focusin', ({ target }) => enter(target as HTMLElement));
  table.addEventListener('keydown', event => {
    const [row, column] = placeOf(cells, event.target as HTMLElement);
    if (row < 0) return;
    const line = cells[row]!;
    const next = {
      ArrowRight: line[column + 1],
      ArrowLeft: line[column - 1],
      ArrowDown: cells[row + 1]?.[column],
      ArrowUp: cells[row - 1]?.[column],
      Home: (event.ctrlKey ? cells[0] : line)?.[0],
      End: (event.ctrlKey ? cells.at(-1) : line)?.at(-1),
    }[event.key];
    if (!next) return;
    event.preventDefault();
    next.focus();
  });
}

/** What has the focus in a cell: the button in it, else the cell. */
function targetIn(cell: HTMLTableCellElement): HTMLElement {
  return cell.querySelector<HTMLElement>('[data-key]') ?? cell;
}

function placeOf(cells: readonly (readonly HTMLElement[])[], target: HTMLElement): [row: number, column: number] {
  const row = cells.findIndex(line => line.includes(target));
  return [row, row < 0 ? -1 : cells[row]!.indexOf(target)];
}
