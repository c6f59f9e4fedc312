// Sets the remembered light or dark before the first paint; the rest of the preferences wait for the page.
try {
  const { shade } = JSON.parse(localStorage.getItem('branhearth.prefs') ?? '{}');
  if (shade === 'light' || shade === 'dark') document.documentElement.dataset.shade = shade;
} catch {
  // Forbidden or unreadable storage: the browser's own choice stands.
}
