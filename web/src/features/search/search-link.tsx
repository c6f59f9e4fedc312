/** The way to the search, in the head of every page: by a press, and by a key of its own with Ctrl, as single keys belong to screen readers. */

import { useEffect } from 'preact/hooks';
import { useLocation } from 'preact-iso';
import { useShellWords } from '../../ui/parts/use-shell-words.ts';
import './search-link.css';

export function SearchLink() {
  const { text } = useShellWords();
  const { path, route } = useLocation();
  useEffect(() => {
    const listen = (event: KeyboardEvent) => {
      if (event.key !== '/' || !(event.ctrlKey || event.metaKey)) return;
      event.preventDefault();
      if (path === '/search') document.getElementById('search-words')?.focus();
      else route('/search');
    };
    addEventListener('keydown', listen);
    return () => removeEventListener('keydown', listen);
  }, [path]);
  const name = text('page-shell.search');
  return (
    <a
      class="search-link"
      href="/search"
      title={name}
      aria-keyshortcuts="Control+/"
      aria-current={path === '/search' ? 'page' : undefined}
    >
      <svg viewBox="0 0 20 20" aria-hidden="true">
        <circle cx="8.5" cy="8.5" r="5.5" />
        <path d="M12.7 12.7 17.5 17.5" />
      </svg>
      <span class="unseen">{name}</span>
    </a>
  );
}
