import { byId } from '../dom.ts';

const STORAGE_KEY = 'fairlath.light';

/** Light or dark: as the device has it, unless the switch says otherwise. */
export function bindThemeSwitch(): void {
  const choice = byId<HTMLSelectElement>('light');
  const apply = (): void => {
    document.documentElement.dataset.light = choice.value;
  };
  try {
    choice.value = localStorage.getItem(STORAGE_KEY) ?? 'device';
  } catch {
    // The browser stores nothing; the switch works all the same.
  }
  choice.addEventListener('change', () => {
    apply();
    try {
      localStorage.setItem(STORAGE_KEY, choice.value);
    } catch {}
  });
  apply();
}
