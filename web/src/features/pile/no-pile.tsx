/** Instead of a pile: it is being fetched, was never there, was removed, or cannot be had now. */
import { ApiProblem, reasonOf } from '../../data/client.ts';
import { usePage } from '../../ui/parts/use-page.ts';

interface NoPileProps {
  readonly error: unknown;
  /** The name of a pile that was removed while its page was open. */
  readonly goneName?: string | undefined;
}

export function NoPile({ error, goneName }: NoPileProps) {
  const heading = usePage(goneName ?? 'Pile');
  const isUnknown = error instanceof ApiProblem && error.problem.status === 404;
  const isOver = goneName !== undefined || isUnknown;
  return (
    <div class="page narrow">
      <h1 ref={heading} tabIndex={-1}>
        {goneName !== undefined
          ? `“${goneName}” has been removed.`
          : isUnknown
            ? 'No pile lies at this address.'
            : error === undefined
              ? 'Looking at the pile…'
              : 'The pile cannot be shown now.'}
      </h1>
      {goneName !== undefined && (
        <p role="alert">Somebody removed it while this page was open. Its probes can be claimed again.</p>
      )}
      {isOver ? (
        <p class="lead">
          <a href="/">Go to the piles</a>
        </p>
      ) : (
        error !== undefined && <p class="lead">{reasonOf(error)}</p>
      )}
    </div>
  );
}
