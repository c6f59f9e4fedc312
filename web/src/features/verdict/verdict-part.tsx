/** How a batch came out: what was said of it, and asking for it while nobody said anything. */
import { useEffect, useRef, useState } from 'preact/hooks';
import type { BatchView } from '../../../../shared/contracts/lineage.ts';
import type { BatchVerdict } from '../../../../shared/contracts/verdict.ts';
import { useReader } from '../../data/live/use-installation.ts';
import { usePrefs } from '../../data/prefs.ts';
import { useStore } from '../../data/store.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { useQuery, useThrottled } from '../../data/use-query.ts';
import { fullDay } from '../../ui/format/full-date.ts';
import { Refusal } from '../../ui/parts/forms.tsx';
import { May } from '../../ui/parts/only-for.tsx';
import { Part } from '../../ui/parts/part.tsx';
import { newClientId } from '../journal/client-id.ts';
import { correctEntry } from '../journal/journal-api.ts';
import type { WaitingEntry } from '../journal/outbox.ts';
import { useSayEntry, useSayHeld } from '../journal/say-entry.ts';
import { serverMomentMs } from '../journal/server-moment.ts';
import { useVerdictWords } from '../journal/use-verdict-words.ts';
import { waiting, writeDown } from '../journal/waiting.ts';
import { AskVerdict, type Chosen } from './ask-verdict.tsx';
import { getVerdict } from './verdict-api.ts';
import './verdict.css';

interface VerdictPartProps {
  readonly batch: Pick<BatchView, 'id' | 'name' | 'pileId' | 'site' | 'verdict'>;
  /** Called once the server has another verdict. */
  readonly onChange?: () => unknown;
}

type VerdictFacts = Extract<WaitingEntry['entry']['what'], { kind: 'verdict' }>;

/** What stands now, what waits on this device, and writing another. */
function useVerdict({ batch, onChange }: VerdictPartProps) {
  const { value, refresh } = useQuery(`verdict ${batch.id}`, () => getVerdict(batch.id));
  const { name } = usePrefs();
  const mutation = useMutation();
  const entries = useStore(waiting, (now) => now.entries);
  const keptCount = useStore(waiting, (now) => now.keptCount);
  const [isAsking, setAsking] = useState(false);
  const [isWritten, setWritten] = useState(false);
  const again = async () => {
    await refresh();
    onChange?.();
  };
  useThrottled(keptCount, 0, () => void again());
  const standing = value === undefined ? batch.verdict : value.verdict;
  const waits = entries.findLast(({ entry: { what } }) => what.kind === 'verdict' && what.batchId === batch.id);
  const write = ({ verdict, why, note }: Chosen) =>
    mutation.run(async () => {
      const what: VerdictFacts = { kind: 'verdict', batchId: batch.id, verdict, ...(why && { why }) };
      const entry = { id: newClientId(), what, ...(note && { note }), ...(name.trim() && { by: name.trim() }) };
      if (standing) {
        await correctEntry(standing.entryId, { ...entry, replaces: standing.versionId });
        await again();
      } else {
        await writeDown(batch.pileId, { ...entry, at: new Date(serverMomentMs()).toISOString() });
      }
      setAsking(false);
      setWritten(true);
    });
  return { standing, waits, offers: value?.offers ?? [], isAsking, setAsking, isWritten, write, mutation };
}

export function VerdictPart(props: VerdictPartProps) {
  const { text } = useVerdictWords();
  const { standing, waits, offers, isAsking, setAsking, isWritten, write, mutation } = useVerdict(props);
  const isAsked = isAsking || (standing === null && waits === undefined);
  return (
    <Part id="verdict" title={text('page-verdict.title')}>
      {waits !== undefined ? (
        <Waits waits={waits} isWritten={isWritten} />
      ) : (
        standing && <Standing verdict={standing} site={props.batch.site} isWritten={isWritten} />
      )}
      <May to="keeper" otherwise={standing === null && <p class="quiet">{text('page-verdict.nobody')}</p>}>
        {isAsked && <AskVerdict offers={offers} busy={mutation.busy} onChosen={(chosen) => void write(chosen)} />}
        <Refusal error={mutation.error} />
        {standing && waits === undefined && (
          <button type="button" class="plain" aria-expanded={isAsking} onClick={() => setAsking(!isAsking)}>
            {text(isAsking ? 'page-verdict.correct.leave' : 'page-verdict.correct')}
          </button>
        )}
      </May>
    </Part>
  );
}

/** Whoever has just written it finds it where they are. */
function useFocusOnceWritten(isWritten: boolean) {
  const place = useRef<HTMLParagraphElement>(null);
  useEffect(() => {
    if (isWritten) place.current?.focus();
  }, [isWritten]);
  return place;
}

interface StandingProps {
  readonly verdict: BatchVerdict;
  readonly site: string;
  readonly isWritten: boolean;
}

function Standing({ verdict, site, isWritten }: StandingProps) {
  const { text } = useVerdictWords();
  const say = useSayHeld();
  const reader = useReader(site);
  const place = useFocusOnceWritten(isWritten);
  return (
    <>
      <p class="sentence" ref={place} tabIndex={-1}>
        {say(verdict)}.
      </p>
      {verdict.note && <p class="diary-note">{verdict.note}</p>}
      <p class="quiet">
        {text('page-verdict.given', {
          isNamed: verdict.by !== null,
          byName: verdict.by ?? '',
          dayText: fullDay(Date.parse(verdict.at), reader),
        })}
      </p>
    </>
  );
}

function Waits({ waits, isWritten }: { readonly waits: WaitingEntry; readonly isWritten: boolean }) {
  const { text } = useVerdictWords();
  const say = useSayEntry();
  const place = useFocusOnceWritten(isWritten);
  const { what, note } = waits.entry;
  return (
    <>
      <p class="sentence" ref={place} tabIndex={-1}>
        {say(what as VerdictFacts)}.
      </p>
      {note && <p class="diary-note">{note}</p>}
      <p class={waits.refused === null ? 'waits' : 'wrong'}>
        {waits.refused === null
          ? text('page-verdict.waits')
          : text('page-verdict.refused', { reasonText: waits.refused })}
      </p>
    </>
  );
}
