/**
 * web/pile/why-kind.tsx: one kind of warning down to the readings it rests on, its rule, its limits and what holds it back.
 */
import { alarmPolicies } from '../../../core/alarm/policies.ts';
import type { PileDetail } from '../../../shared/api/piles.ts';
import type { Evidence, WarningKind } from '../../../shared/warning.ts';
import { lengthWords } from '../format/age.ts';
import { nearTime } from '../format/local-time.ts';
import { sentenceIn } from '../format/temperature.ts';
import {
  alarmStateNames,
  capital,
  listed,
  positionNames,
  warningMeanings,
  warningNames,
  warningTitle,
} from '../format/words.ts';
import { useHouseNow, useReader } from '../live/use-house.ts';
import { Part } from '../parts/part.tsx';
import { usePage } from '../parts/use-page.ts';
import { usePrefs } from '../prefs.ts';
import { sightLines } from './evidence-groups.ts';
import { StepList, whyPath } from './warnings.tsx';
import { WhyLimits } from './why-limits.tsx';
import { WhyReadings } from './why-readings.tsx';

interface WhyKindProps {
  readonly pile: PileDetail;
  readonly kind: WarningKind;
}

type Looked = PileDetail['evidence'][number];

const evidenceWords: Record<Evidence, string> = {
  present: 'Seen',
  absent: 'Not seen',
  missing: 'Cannot be told for want of readings',
};

/** The gravest first. */
const evidenceOrder: readonly Evidence[] = ['present', 'missing', 'absent'];

export function WhyKind({ pile, kind }: WhyKindProps) {
  const heading = usePage(`Why: ${warningNames[kind]}, ${pile.name}`);
  const looked = pile.evidence
    .filter((one) => one.kind === kind)
    .sort((one, other) => evidenceOrder.indexOf(one.evidence) - evidenceOrder.indexOf(other.evidence));
  const path = `/piles/${encodeURIComponent(pile.id)}`;
  return (
    <div class="page">
      <header class="opening">
        <p class="dateline">
          <a href={path}>{pile.name}</a>, <a href={`${path}/why`}>why it says so</a>
        </p>
        <h1 ref={heading} tabIndex={-1}>
          {warningNames[kind]}
        </h1>
        <p class="lead">{warningMeanings[kind]}</p>
      </header>
      {looked.length === 0 ? (
        <p class="quiet">This has not been looked for here: no batch lies here, or no probe that could tell.</p>
      ) : (
        <>
          <Found looked={looked} />
          <WhyReadings pile={pile} kind={kind} />
          <Rules looked={looked} />
          <WhyLimits pile={pile} kind={kind} />
          <HoldsBack pile={pile} kind={kind} looked={looked} />
        </>
      )}
      <Standing pile={pile} kind={kind} />
    </div>
  );
}

function Found({ looked }: { readonly looked: readonly Looked[] }) {
  const { unit } = usePrefs();
  return (
    <Part id="found" title="What was found">
      <ul class="why-found">
        {sightLines(looked).map(({ places, evidence, seen }) => (
          <li key={`${evidence} ${seen}`}>
            <b>
              {evidenceWords[evidence]}
              {places.length > 0 && ` at ${listed(places.map((place) => positionNames[place]))}`}
            </b>
            {sentenceIn(unit, seen)}
          </li>
        ))}
      </ul>
    </Part>
  );
}

/** The same rule at several places is said once. */
function Rules({ looked }: { readonly looked: readonly Looked[] }) {
  const { unit } = usePrefs();
  const rules = [...new Set(looked.map((one) => one.why))];
  const placesOf = (why: string) =>
    looked.flatMap((one) => (one.why === why && one.position ? [positionNames[one.position]] : []));
  return (
    <Part id="rule" title="The rule">
      {rules.map((why) => (
        <p key={why}>
          {rules.length > 1 && <b>{capital(placesOf(why).join(', '))}: </b>}
          {sentenceIn(unit, why)}
        </p>
      ))}
    </Part>
  );
}

function HoldsBack({ pile, kind, looked }: WhyKindProps & { readonly looked: readonly Looked[] }) {
  const explained = looked.filter((one) => one.explainedBy !== null && one.explainedBy !== kind);
  const holds = [
    ...new Set(pile.evidence.flatMap((one) => (one.explainedBy === kind && one.kind !== kind ? [one.kind] : []))),
  ];
  return (
    <Part id="holds" title="What explains it">
      {explained.length === 0 && (
        <p>
          {looked.some((one) => one.evidence === 'present')
            ? 'Nothing else explains it, so nothing holds it back.'
            : 'It is not seen, so there is nothing to explain.'}
        </p>
      )}
      {explained.map(({ position, explainedBy }) => (
        <p key={position ?? ''}>
          {position ? `At the ${positionNames[position]}, “` : '“'}
          <a href={whyPath(pile.id, explainedBy ?? kind)}>{warningNames[explainedBy ?? kind]}</a>” explains it and holds
          it back: see to that first.
        </p>
      ))}
      {holds.length > 0 && (
        <p>
          It explains and holds back{' '}
          {holds.map((held, i) => (
            <span key={held}>
              {i > 0 && ', '}
              <a href={whyPath(pile.id, held)}>{warningNames[held].toLowerCase()}</a>
            </span>
          ))}
          .
        </p>
      )}
    </Part>
  );
}

/** How long it must be seen, and how long gone; our own proposal, as core/alarm/policies.ts says. */
function delayWords({ onDelayMs, offDelayMs }: (typeof alarmPolicies)[WarningKind]): string {
  const on =
    onDelayMs === 0
      ? 'People are told at once when it is seen'
      : `It must be seen for ${lengthWords(onDelayMs)} before people are told`;
  const off =
    offDelayMs === 0
      ? 'it ends as soon as it is seen no more'
      : `it ends when it has been seen no more for ${lengthWords(offDelayMs)}`;
  return `${on}; ${off}. Readings that are missing never end it.`;
}

/** What is asked of people, and every step the warning took. */
function Standing({ pile, kind }: WhyKindProps) {
  const { unit } = usePrefs();
  const reader = useReader(pile.site);
  const nowMs = useHouseNow();
  const alarms = pile.alarms.filter((alarm) => alarm.kind === kind && alarm.state !== 'normal');
  return (
    <Part id="standing" title="The warning">
      <p>{delayWords(alarmPolicies[kind])}</p>
      {alarms.length === 0 && <p>No such warning stands.</p>}
      {alarms.map((alarm) => (
        <div class="why-standing" key={alarm.id}>
          <h3>{warningTitle(alarm.kind, alarm.position)}</h3>
          <p class="alarm-state">
            {alarm.severity}, {alarmStateNames[alarm.state]}, since {nearTime(Date.parse(alarm.since), nowMs, reader)}
          </p>
          {alarm.state === 'returned-unacknowledged' ? (
            <p>It has passed, so what it asked for is asked no more.</p>
          ) : (
            <p class="todo">{sentenceIn(unit, alarm.todo)}</p>
          )}
          {alarm.caution && alarm.state !== 'returned-unacknowledged' && (
            <p class="caution">
              <span class="label">Caution</span> {sentenceIn(unit, alarm.caution)}
            </p>
          )}
          <StepList alarm={alarm} site={pile.site} />
        </div>
      ))}
    </Part>
  );
}
