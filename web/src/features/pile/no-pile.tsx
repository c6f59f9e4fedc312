/** Instead of a pile: it is being fetched, was never there, was removed, or cannot be had now. */
import { ApiProblem, reasonOf } from '../../data/client.ts';
import { usePage } from '../../ui/parts/use-page.ts';
import { usePileWords } from './use-pile-words.ts';

interface NoPileProps {
  readonly error: unknown;
  /** The name of a pile that was removed while its page was open. */
  readonly goneName?: string | undefined;
}

export function NoPile({ error, goneName }: NoPileProps) {
  const { text } = usePileWords();
  const heading = usePage(goneName ?? text('page-pile.no-pile.title'));
  const isUnknown = error instanceof ApiProblem && error.problem.status === 404;
  const why = goneName !== undefined ? 'gone' : isUnknown ? 'unknown' : error === undefined ? 'looking' : 'other';
  const isOver = goneName !== undefined || isUnknown;
  return (
    <div class="page narrow">
      <h1 ref={heading} tabIndex={-1}>
        {text('page-pile.no-pile', { why, pileName: goneName ?? '' })}
      </h1>
      {goneName !== undefined && <p role="alert">{text('page-pile.no-pile.gone')}</p>}
      {isOver ? (
        <p class="lead">
          <a href="/">{text('page-pile.no-pile.back')}</a>
        </p>
      ) : (
        error !== undefined && <p class="lead">{reasonOf(error)}</p>
      )}
    </div>
  );
}
