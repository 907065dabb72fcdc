import { byId } from './dom.ts';
import type { JobFiles } from './state/job-files.ts';
import type { Store } from './state/store.ts';

/** Undo and redo by button and by the usual keys; open and save. */
export function bindKeyboard(bench: Store, shelf: JobFiles): void {
  const [back, forward] = [byId<HTMLButtonElement>('back'), byId<HTMLButtonElement>('forward')];
  back.addEventListener('click', () => bench.undo());
  forward.addEventListener('click', () => bench.redo());
  bench.onChange(() => {
    back.disabled = !bench.canUndo;
    forward.disabled = !bench.canRedo;
  });
  window.addEventListener('keydown', (event) => {
    const action = shortcutAction(event, bench, shelf);
    if (!action) return;
    event.preventDefault();
    void action();
  });
}

function shortcutAction(event: KeyboardEvent, bench: Store, shelf: JobFiles): (() => unknown) | undefined {
  if (!(event.ctrlKey || event.metaKey) || event.altKey) return undefined;
  const key = event.key.toLowerCase();
  // A key that is held down asks once.
  if (key === 's') return () => event.repeat || shelf.save();
  if (key === 'o') return () => event.repeat || shelf.open();
  // In other fields the browser's own undo is meant.
  if (event.target instanceof Element && event.target.matches('input[type="text"], #readings'))
    return undefined;
  if (key === 'y' || (key === 'z' && event.shiftKey)) return () => bench.redo();
  return key === 'z' ? () => bench.undo() : undefined;
}
