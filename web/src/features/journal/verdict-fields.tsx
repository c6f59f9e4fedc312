/** A verdict that is being corrected. */
import { verdictReasons, verdicts } from '../../../../shared/verdict.ts';
import { capital } from '../../ui/format/words.ts';
import type { EntryDraft } from './entry-draft.ts';
import { OneOf } from './thumb-choice.tsx';
import { useVerdictWords } from './use-verdict-words.ts';

interface VerdictFieldsProps {
  readonly draft: EntryDraft;
  readonly onDraft: (change: Partial<EntryDraft>) => void;
  /** What is wrong with a field of the entry. */
  readonly wrong: (field: string) => string | undefined;
}

export function VerdictFields({ draft, onDraft, wrong }: VerdictFieldsProps) {
  const { text } = useVerdictWords();
  return (
    <>
      <OneOf
        legend={text('page-verdict.verdict')}
        value={draft.verdict}
        choices={verdicts.map((verdict) => [verdict, text(`page-verdict.is.${verdict}`)])}
        onValue={(verdict) => onDraft({ verdict })}
        error={wrong('verdict')}
      />
      <OneOf
        legend={text('page-verdict.why')}
        optional
        value={draft.why}
        choices={verdictReasons.map((why) => [why, capital(text(`page-verdict.why.${why}`))])}
        onValue={(why) => onDraft({ why })}
        error={wrong('why')}
      />
    </>
  );
}
