import { byId } from '../dom.ts';

const KEPT = 'fairlath.light';

/** Light or dark: as the device has it, unless the switch says otherwise. */
export function lightSwitch(): void {
  const choice = byId<HTMLSelectElement>('light');
  const apply = (): void => {
    if (choice.value === 'device') delete document.documentElement.dataset.light;
    else document.documentElement.dataset.light = choice.value;
  };
  try {
    choice.value = localStorage.getItem(KEPT) ?? 'device';
  } catch {
    // The browser keeps nothing: the switch works all the same.
  }
  choice.addEventListener('change', () => {
    apply();
    try {
      localStorage.setItem(KEPT, choice.value);
    } catch {
      // As above.
    }
  });
  apply();
}
