/** Hides the places that have the text in none of their names, and lists that then have none; says how many are left. */
export function narrow(root: HTMLElement, text: string): string {
  const wanted = text.trim().toLowerCase();
  let left = 0;
  for (const section of root.querySelectorAll('section')) {
    const groups = [...section.querySelectorAll('tbody')];
    for (const group of groups) {
      group.hidden = !(group.dataset.names ?? '').includes(wanted);
      if (!group.hidden) left++;
    }
    section.hidden = groups.length > 0 && groups.every(group => group.hidden);
  }
  const none = root.querySelector<HTMLElement>('.none');
  if (none) none.hidden = wanted === '' || left > 0;
  return `${left} ${left === 1 ? 'place' : 'places'}`;
}
