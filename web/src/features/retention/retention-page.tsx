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
import { manyWords, sizeWords } from '../../ui/format/amount.ts';
import { fullDay } from '../../ui/format/full-date.ts';
import type { Reader } from '../../ui/format/local-time.ts';
import { capital } from '../../ui/format/words.ts';
import { Refusal, TextField } from '../../ui/parts/forms.tsx';
import { May } from '../../ui/parts/only-for.tsx';
import { Part } from '../../ui/parts/part.tsx';
import { usePage } from '../../ui/parts/use-page.ts';
import { Backups } from './backups.tsx';
import { isLost, keptWords, standsNow, staysExact, takenUp, wouldFreeWords } from './retention-words.ts';
import './retention.css';

/** A run is looked at so often while it goes on, and now and then before. */
const lookEveryMs = 2_000;

const getKeeping = (days: number | undefined) =>
  ask(keepingAnswerSchema, `/api/retention${days === undefined ? '' : `?keptDays=${days}`}`);

export function KeepingPage() {
  const heading = usePage('How long readings are kept');
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
        How long readings are kept
      </h1>
      {error !== undefined && <p class="refusal">{reasonOf(error)}</p>}
      {shown ? (
        <>
          <p class="lead">{takenUp(shown)}</p>
          <Standing keeping={shown} reader={reader} />
          <Part id="keep-for" title="Keep them for">
            <p>
              Older readings are reduced to 10-minute averages, a little at a time, so that readings that come in never
              wait.
            </p>
            <May to="owner" otherwise={<p>{standsNow(shown.keptDays)} An owner may change this.</p>}>
              <AgeForm keeping={shown} own={own} onOwn={setOwn} onChosen={setShown} />
            </May>
          </Part>
          <Part id="stays" title="What stays exact">
            <ul class="keeping-list">
              {staysExact.map((line) => (
                <li key={line}>{line}</li>
              ))}
            </ul>
          </Part>
          <Part id="lost" title="What is lost">
            <ul class="keeping-list">
              {isLost.map((line) => (
                <li key={line}>{line}</li>
              ))}
            </ul>
            <p>
              What was reduced comes back from a backup only. Batches that still lie keep all their readings, however
              old.
            </p>
          </Part>
        </>
      ) : (
        error === undefined && <p class="quiet">Counting readings …</p>
      )}
      <May to="keeper">
        <Backups reader={reader} />
      </May>
    </div>
  );
}

/** What downsampling is doing, did last, and waits for. */
function Standing({ keeping, reader }: { readonly keeping: KeepingAnswer; readonly reader: Reader }) {
  const { keptDays, downsampledBefore, running, last, heldBy, problem } = keeping;
  const dayOf = (instant: string) => fullDay(Date.parse(instant), reader);
  return (
    <div class="keeping-standing" role="status">
      {running && (
        <p>
          <label for="downsampling">
            Reducing readings from before {dayOf(running.before)}: {Math.round(100 * running.share)} %
          </label>
          <progress id="downsampling" value={running.share} max={1} />
        </p>
      )}
      {problem !== null && (
        <p class="refusal">The last try went wrong and is made again by itself within a minute. {problem}.</p>
      )}
      {keptDays !== null && heldBy && (
        <p>
          <a href={`/piles/${heldBy.pileId}`}>{heldBy.pileName}</a> was laid on {dayOf(heldBy.startedAt)} and still
          lies: everything from the day before on is kept until its batch ends.
        </p>
      )}
      {!running && last && (
        <p>
          Last reduced on {dayOf(last.endedAt)}: {manyWords(last.removed)} readings from before {dayOf(last.before)}{' '}
          became ten-minute rollups
          {last.freedBytes > 0 ? `, and ${sizeWords(last.freedBytes)} were given back.` : '.'}
        </p>
      )}
      {downsampledBefore !== null && keptDays === null && (
        <p>Nothing more is reduced. From before {dayOf(downsampledBefore)} ten-minute averages are kept.</p>
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
    ['always', 'As long as there is room', 'nothing is reduced'],
    ...offeredKeptDays.map((days): [Pick, string, string] => {
      const found = freed(days);
      return [`${days}`, capital(keptWords(days)), found ? wouldFreeWords(found) : ''];
    }),
    ['own', 'Another number of days', ''],
  ];
  const ownFreed = freed(Number(ownText));
  return (
    <form
      class="form keeping-form"
      onSubmit={(event) => {
        event.preventDefault();
        void save();
      }}
    >
      <fieldset>
        <legend class="unseen">Keep every reading for</legend>
        {choices.map(([value, words, says]) => (
          <label key={value} class="keeping-choice">
            <input type="radio" name="keep" value={value} checked={pick === value} onChange={() => setPick(value)} />
            <span>
              <b>{words}</b>
              {says && <span class="quiet">{capital(says)}.</span>}
            </span>
          </label>
        ))}
      </fieldset>
      {pick === 'own' && (
        <TextField
          label="Days"
          inputMode="numeric"
          value={ownText}
          onValue={onOwn}
          hint={ownFreed ? `${capital(wouldFreeWords(ownFreed))}.` : `At least ${leastKeptDays}.`}
          error={mutation.fieldError('/keptDays')}
        />
      )}
      <Refusal error={mutation.error} />
      <button type="submit" class="primary" disabled={mutation.busy || !isAge || wanted === keeping.keptDays}>
        {wanted === null ? 'Keep every reading' : `Thin readings older than ${isAge ? keptWords(wanted) : '…'}`}
      </button>
    </form>
  );
}
