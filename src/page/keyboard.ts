import { byId } from './dom.ts';
import type { Shelf } from './state/job-files.ts';
import type { Bench } from './state/store.ts';

/** Steps back and forward, by their buttons and by the keys that every program has for them; open and save. */
export function stepsAndKeys(bench: Bench, shelf: Shelf): void {
  const [back, forward] = [byId<HTMLButtonElement>('back'), byId<HTMLButtonElement>('forward')];
  back.addEventListener('click', () => bench.back());
  forward.addEventListener('click', () => bench.forward());
  bench.changed(() => {
    back.disabled = !bench.canGoBack;
    forward.disabled = !bench.canGoForward;
  });
  window.addEventListener('keydown', (event) => {
    const action = actionOf(event, bench, shelf);
    if (!action) return;
    event.preventDefault();
    void action();
  });
}

function actionOf(event: KeyboardEvent, bench: Bench, shelf: Shelf): (() => unknown) | undefined {
  if (!(event.ctrlKey || event.metaKey) || event.altKey) return undefined;
  const key = event.key.toLowerCase();
  // A key that is held down asks once.
  if (key === 's') return () => event.repeat || shelf.save();
  if (key === 'o') return () => event.repeat || shelf.open();
  // Where anything but the job is typed the browser's own undo is meant.
  if (event.target instanceof Element && event.target.matches('input[type="text"], #readings'))
    return undefined;
  if (key === 'y' || (key === 'z' && event.shiftKey)) return () => bench.forward();
  return key === 'z' ? () => bench.back() : undefined;
}
