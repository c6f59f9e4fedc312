/** For how long every reading is kept as it came, what that takes up, and how downsampling goes. */
import { useEffect, useState } from 'preact/hooks';
import {
  type KeepingAnswer,
  keepingAnswerSchema,
  keptDaysSchema,
  leastKeptDays,
  offeredKeptDays,
} from '../../../../shared/contracts/retention.ts';
import { ask, reasonOf } from '../../data/client.ts';
import { useReader } from '../../data/live/use-installation.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { useQuery } from '../../data/use-query.ts';
import { fullDay } from '../../ui/format/full-date.ts';
import type { Reader } from '../../ui/format/local-time.ts';
import { Refusal, TextField } from '../../ui/parts/forms.tsx';
import { May } from '../../ui/parts/only-for.tsx';
import { Part } from '../../ui/parts/part.tsx';
import { usePage } from '../../ui/parts/use-page.ts';
import { Backups } from './backups.tsx';
import { isLost, standsNow, staysExact, takenUp, wouldFreeWords } from './retention-words.ts';
import './retention.css';
import { useRetentionWords } from './use-retention-words.ts';

/** A run is looked at so often while it goes on, and now and then before. */
const lookEveryMs = 2_000;

const getKeeping = (days: number | undefined) =>
  ask(keepingAnswerSchema, `/api/retention${days === undefined ? '' : `?keptDays=${days}`}`);

export function KeepingPage() {
  const words = useRetentionWords();
  const { text } = words;
  const heading = usePage(text('page-retention.title'));
  const reader = useReader();
  const [own, setOwn] = useState('');
  const ownDays = keptDaysSchema.safeParse(Number(own)).data;
  const { value, error, refresh } = useQuery(`keeping ${ownDays ?? ''}`, () => getKeeping(ownDays));
  const [shown, setShown] = useState<KeepingAnswer>();
  useEffect(() => {
    if (value) setShown(value);
  }, [value]);
  useEffect(() => {
    if (shown === undefined || shown.keptDays === null) return;
    const timer = setInterval(() => void refresh(), lookEveryMs);
    return () => clearInterval(timer);
  }, [shown?.keptDays]);

  return (
    <div class="page narrow">
      <h1 ref={heading} tabIndex={-1}>
        {text('page-retention.title')}
      </h1>
      {error !== undefined && <p class="refusal">{reasonOf(error)}</p>}
      {shown ? (
        <>
          <p class="lead">{takenUp(shown, words)}</p>
          <Standing keeping={shown} reader={reader} />
          <Part id="keep-for" title={text('page-retention.keep')}>
            <p>{text('page-retention.keep.hint')}</p>
            <May to="owner" otherwise={<p>{standsNow(shown.keptDays, words)}</p>}>
              <AgeForm keeping={shown} own={own} onOwn={setOwn} onChosen={setShown} />
            </May>
          </Part>
          <Part id="stays" title={text('page-retention.stays')}>
            <ul class="keeping-list">
              {staysExact.map((one) => (
                <li key={one}>{text(`page-retention.stays.${one}`)}</li>
              ))}
            </ul>
          </Part>
          <Part id="lost" title={text('page-retention.lost')}>
            <ul class="keeping-list">
              {isLost.map((one) => (
                <li key={one}>{text(`page-retention.lost.${one}`)}</li>
              ))}
            </ul>
            <p>{text('page-retention.lost.for-good')}</p>
          </Part>
        </>
      ) : (
        error === undefined && <p class="quiet">{text('page-retention.counting')}</p>
      )}
      <May to="keeper">
        <Backups reader={reader} />
      </May>
    </div>
  );
}

/** What downsampling is doing, did last, and waits for. */
function Standing({ keeping, reader }: { readonly keeping: KeepingAnswer; readonly reader: Reader }) {
  const { text, rich } = useRetentionWords();
  const { keptDays, downsampledBefore, running, last, heldBy, problem } = keeping;
  const dayOf = (instant: string) => fullDay(Date.parse(instant), reader);
  return (
    <div class="keeping-standing" role="status">
      {running && (
        <p>
          <label for="downsampling">
            {text('page-retention.running', { dayText: dayOf(running.before), doneFrac: running.share })}
          </label>
          <progress id="downsampling" value={running.share} max={1} />
        </p>
      )}
      {problem !== null && <p class="refusal">{text('page-retention.problem', { problemText: problem })}</p>}
      {keptDays !== null && heldBy && (
        <p>
          {rich('page-retention.held', {
            pileName: heldBy.pileName,
            link: (inner) => <a href={`/piles/${heldBy.pileId}`}>{inner}</a>,
            dayText: dayOf(heldBy.startedAt),
          })}
        </p>
      )}
      {!running && last && (
        <p>
          {text('page-retention.last', {
            dayText: dayOf(last.endedAt),
            readingCount: last.removed,
            beforeText: dayOf(last.before),
            isFreed: last.freedBytes > 0,
            freedBytes: last.freedBytes,
          })}
        </p>
      )}
      {downsampledBefore !== null && keptDays === null && (
        <p>{text('page-retention.stopped', { dayText: dayOf(downsampledBefore) })}</p>
      )}
    </div>
  );
}

interface AgeFormProps {
  readonly keeping: KeepingAnswer;
  readonly own: string;
  readonly onOwn: (own: string) => void;
  readonly onChosen: (keeping: KeepingAnswer) => void;
}

type Pick = 'always' | 'own' | `${number}`;

function pickOf(keptDays: number | null): Pick {
  if (keptDays === null) return 'always';
  return offeredKeptDays.some((days) => days === keptDays) ? `${keptDays}` : 'own';
}

function AgeForm({ keeping, own, onOwn, onChosen }: AgeFormProps) {
  const words = useRetentionWords();
  const { text } = words;
  const mutation = useMutation();
  const [pick, setPick] = useState<Pick>(pickOf(keeping.keptDays));
  const ownText = own === '' && pickOf(keeping.keptDays) === 'own' ? String(keeping.keptDays) : own;
  const wanted = pick === 'always' ? null : Number(pick === 'own' ? ownText : pick);
  const isAge = wanted === null || keptDaysSchema.safeParse(wanted).success;
  const freed = (days: number) => keeping.wouldFree.find(({ keptDays }) => keptDays === days);
  const save = async () => {
    await mutation.run(async () =>
      onChosen(await ask(keepingAnswerSchema, '/api/retention', { method: 'PUT', body: { keptDays: wanted } })),
    );
  };
  const choices: readonly (readonly [Pick, string, string])[] = [
    ['always', text('page-retention.keep.always'), text('page-retention.free.never')],
    ...offeredKeptDays.map((days): [Pick, string, string] => {
      const found = freed(days);
      return [
        `${days}`,
        text('page-retention.keep.days', { keptDayCount: days }),
        found ? wouldFreeWords(found, words) : '',
      ];
    }),
    ['own', text('page-retention.keep.own'), ''],
  ];
  const ownFreed = freed(Number(ownText));
  const saveText =
    wanted === null
      ? text('page-retention.save.always')
      : isAge
        ? text('page-retention.save.days', { keptDayCount: wanted })
        : text('page-retention.save.unknown');
  return (
    <form
      class="form keeping-form"
      onSubmit={(event) => {
        event.preventDefault();
        void save();
      }}
    >
      <fieldset>
        <legend class="unseen">{text('page-retention.keep.aloud')}</legend>
        {choices.map(([value, name, says]) => (
          <label key={value} class="keeping-choice">
            <input type="radio" name="keep" value={value} checked={pick === value} onChange={() => setPick(value)} />
            <span>
              <b>{name}</b>
              {says && <span class="quiet">{says}</span>}
            </span>
          </label>
        ))}
      </fieldset>
      {pick === 'own' && (
        <TextField
          label={text('page-retention.keep.own.days')}
          inputMode="numeric"
          value={ownText}
          onValue={onOwn}
          hint={
            ownFreed
              ? wouldFreeWords(ownFreed, words)
              : text('page-retention.keep.own.least', { leastCount: leastKeptDays })
          }
          error={mutation.fieldError('/keptDays')}
        />
      )}
      <Refusal error={mutation.error} />
      <button type="submit" class="primary" disabled={mutation.busy || !isAge || wanted === keeping.keptDays}>
        {saveText}
      </button>
    </form>
  );
}
