/** Paper or blueprint: the reader's choice, else what the device prefers. Kept on this device. */
export type ThemeName = 'paper' | 'blueprint';

const KEPT = 'coverlast.theme';

class Theme {
  name = $state<ThemeName>(preferred());

  apply(): void {
    document.documentElement.dataset['theme'] = this.name;
  }

  switch(): void {
    this.name = this.name === 'paper' ? 'blueprint' : 'paper';
    localStorage.setItem(KEPT, this.name);
    this.apply();
  }
}

function preferred(): ThemeName {
  const kept = localStorage.getItem(KEPT);
  if (kept === 'paper' || kept === 'blueprint') return kept;
  return matchMedia('(prefers-color-scheme: dark)').matches ? 'blueprint' : 'paper';
}

export const theme = new Theme();
