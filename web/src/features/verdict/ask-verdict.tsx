/** A verdict in two taps: how it came out, and why; the reason may be in one's own words. */
import { useState } from 'preact/hooks';
import type { VerdictAnswer } from '../../../../shared/contracts/verdict.ts';
import {
  badReasons,
  goodReasons,
  type Verdict,
  type VerdictReason,
  verdictReasons,
  verdicts,
} from '../../../../shared/verdict.ts';
import { useSay } from '../../data/live/use-say.ts';
import { capital } from '../../ui/format/words.ts';
import { Field } from '../../ui/parts/forms.tsx';
import { useVerdictWords } from '../journal/use-verdict-words.ts';
import { renderVerdict } from './render-verdict.ts';
import './verdict.css';

export interface Chosen {
  readonly verdict: Verdict;
  readonly why?: VerdictReason;
  readonly note?: string;
}

interface AskVerdictProps {
  /** What the record speaks for; empty out of reach. */
  readonly offers: VerdictAnswer['offers'];
  readonly busy: boolean;
  readonly onChosen: (chosen: Chosen) => void;
}

/** Reasons that fit; what is of use with faults may have either. */
const reasonsOf: Record<Verdict, readonly VerdictReason[]> = {
  good: goodReasons,
  usable: verdictReasons,
  poor: badReasons,
  lost: badReasons,
};

export function AskVerdict({ offers, busy, onChosen }: AskVerdictProps) {
  const { text } = useVerdictWords();
  const [verdict, setVerdict] = useState<Verdict | null>(null);
  return (
    <div class="verdict-ask">
      <fieldset class="verdict-step">
        <legend>{text('page-verdict.lead')}</legend>
        <div class="verdict-words">
          {verdicts.map((one) => (
            <button
              type="button"
              key={one}
              class="verdict-choice"
              aria-pressed={one === verdict}
              onClick={() => setVerdict(one)}
            >
              <b>{text(`page-verdict.is.${one}`)}</b>
              <span>{text(`page-verdict.means.${one}`)}</span>
            </button>
          ))}
        </div>
      </fieldset>
      {verdict && (
        <Why
          key={verdict}
          reasons={reasonsOf[verdict]}
          offers={offers}
          busy={busy}
          onWhy={(given) => onChosen({ verdict, ...given })}
        />
      )}
    </div>
  );
}

interface WhyProps extends Pick<AskVerdictProps, 'offers' | 'busy'> {
  readonly reasons: readonly VerdictReason[];
  readonly onWhy: (given: Omit<Chosen, 'verdict'>) => void;
}

function Why({ reasons, offers, busy, onWhy }: WhyProps) {
  const { text } = useVerdictWords();
  const say = useSay(renderVerdict);
  const known = offers.filter(({ why }) => reasons.includes(why));
  const others = reasons.filter((reason) => !known.some(({ why }) => why === reason));
  return (
    <>
      {known.length > 0 && (
        <fieldset class="verdict-step">
          <legend>{text('page-verdict.why.known')}</legend>
          <div class="verdict-known">
            {known.map(({ why, messages }) => (
              <button type="button" key={why} class="verdict-choice" disabled={busy} onClick={() => onWhy({ why })}>
                <b>{capital(text(`page-verdict.why.${why}`))}</b>
                <span>{say(messages.says)}</span>
              </button>
            ))}
          </div>
        </fieldset>
      )}
      {others.length > 0 && (
        <fieldset class="verdict-step">
          <legend>{text(known.length > 0 ? 'page-verdict.why.more' : 'page-verdict.why')}</legend>
          <div class="verdict-others">
            {others.map((why) => (
              <button type="button" key={why} disabled={busy} onClick={() => onWhy({ why })}>
                {capital(text(`page-verdict.why.${why}`))}
              </button>
            ))}
          </div>
        </fieldset>
      )}
      <OwnWords busy={busy} onKeep={(note) => onWhy({ note })} />
    </>
  );
}

function OwnWords({ busy, onKeep }: { readonly busy: boolean; readonly onKeep: (note: string) => void }) {
  const { text } = useVerdictWords();
  const [note, setNote] = useState('');
  const [isMissing, setMissing] = useState(false);
  return (
    <form
      class="form"
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        setMissing(note.trim() === '');
        if (note.trim() !== '') onKeep(note.trim());
      }}
    >
      <Field label={text('page-verdict.own')} error={isMissing ? text('page-verdict.own.missing') : undefined}>
        {(ids) => (
          <textarea
            {...ids}
            rows={2}
            maxLength={2000}
            value={note}
            onInput={(event) => setNote(event.currentTarget.value)}
          />
        )}
      </Field>
      <button type="submit" disabled={busy}>
        {text('page-verdict.own.keep')}
      </button>
    </form>
  );
}
