/** Draws anew and puts the focus, and what was typed, back where they were: things that can be reached carry a `data-key`. */
export function keepFocus(root: HTMLElement, draw: () => void): void {
  const active = document.activeElement;
  const key = active instanceof HTMLElement && root.contains(active) ? active.dataset.key : undefined;
  const typed = new Map([...root.querySelectorAll('input')].map(input => [input.dataset.key, input.value]));
  const caret = active instanceof HTMLInputElement ? active.selectionStart : null;
  draw();
  for (const input of root.querySelectorAll('input')) input.value = typed.get(input.dataset.key) ?? input.value;
  if (key === undefined) return;
  const again = [...root.querySelectorAll<HTMLElement>('[data-key]')].find(one => one.dataset.key === key);
  again?.focus({ preventScroll: true });
  if (again instanceof HTMLInputElement) again.setSelectionRange(caret, caret);
}
