import { byId } from './dom.ts';
import type { JobFiles } from './state/job-files.ts';
import type { Store } from './state/store.ts';

/** Undo and redo, by button too; open and save. */
export function bindKeyboard(store: Store, jobFiles: JobFiles): void {
  const [undoButton, redoButton] = [byId<HTMLButtonElement>('back'), byId<HTMLButtonElement>('forward')];
  undoButton.addEventListener('click', () => store.undo());
  redoButton.addEventListener('click', () => store.redo());
  store.onChange(() => {
    undoButton.disabled = !store.canUndo;
    redoButton.disabled = !store.canRedo;
  });
  window.addEventListener('keydown', (event) => {
    const action = shortcutAction(event, store, jobFiles);
    if (!action) return;
    event.preventDefault();
    void action();
  });
}

function shortcutAction(event: KeyboardEvent, store: Store, jobFiles: JobFiles): (() => unknown) | undefined {
  if (!(event.ctrlKey || event.metaKey) || event.altKey) return undefined;
  const key = event.key.toLowerCase();
  // A key that is held down asks once.
  if (key === 's') return () => event.repeat || jobFiles.save();
  if (key === 'o') return () => event.repeat || jobFiles.open();
  // In other fields the browser's own undo is meant.
  if (event.target instanceof Element && event.target.matches('input[type="text"], #readings'))
    return undefined;
  if (key === 'y' || (key === 'z' && event.shiftKey)) return () => store.redo();
  return key === 'z' ? () => store.undo() : undefined;
}
