// Settings that this browser remembers. One that stores nothing has them for as
// long as the page is open.

/** remembered returns a setting, or null where there is none. */
export function remembered(name: string): string | null {
  try {
    return localStorage.getItem(name);
  } catch {
    return null;
  }
}

export function remember(name: string, value: string): void {
  try {
    localStorage.setItem(name, value);
  } catch {
    // the setting holds for this page
  }
}
