/** An address that shows nothing. */
import { usePage } from './use-page.ts';
import { useShellWords } from './use-shell-words.ts';

export function NoPage() {
  const { text } = useShellWords();
  const heading = usePage(text('page-shell.no-page'));
  return (
    <div class="page narrow">
      <h1 ref={heading} tabIndex={-1}>
        {text('page-shell.no-page.says')}
      </h1>
      <p class="lead">
        <a href="/">{text('page-shell.to-piles')}</a>
      </p>
    </div>
  );
}
