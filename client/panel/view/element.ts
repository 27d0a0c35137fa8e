type Child = Node | string | undefined | false;

/** Makes an element; attributes that are undefined or false are left out, and functions listen. */
export function element<K extends keyof HTMLElementTagNameMap>(
  tag: K,
  attributes: Record<string, string | boolean | undefined | ((event: Event) => void)> = {},
  ...children: Child[]
): HTMLElementTagNameMap[K] {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (typeof value === 'function') made.addEventListener(name, value);
    else if (value === true) made.setAttribute(name, '');
    else if (value !== undefined && value !== false) made.setAttribute(name, value);
  }
  made.append(...children.filter(child => child !== undefined && child !== false));
  return made;
}

/** A button; by its key the focus finds it again when everything is drawn anew. */
export function button(
  text: string,
  key: string,
  click: () => void,
  attributes: { class?: string; disabled?: boolean; title?: string; 'aria-label'?: string } = {},
): HTMLButtonElement {
  return element('button', { type: 'button', 'data-key': key, click, ...attributes }, sentence(text));
}

/** A sentence of ours, in which names stand between backticks. */
export function sentence(text: string): DocumentFragment {
  const fragment = document.createDocumentFragment();
  for (const [index, part] of text.split('`').entries()) {
    fragment.append(index % 2 === 1 ? element('code', {}, part) : part);
  }
  return fragment;
}
