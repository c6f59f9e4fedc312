/** One kind of warning down to the readings it rests on, its rule, its limits and what holds it back. */
import type { PileDetail } from '../../../../shared/contracts/piles.ts';
import { meaningTexts } from '../../../../shared/messages/made/en/meaning.ts';
import type { Evidence, WarningKind } from '../../../../shared/warning.ts';
import { useList } from '../../data/live/use-list.ts';
import { useSaid } from '../../data/live/use-say.ts';
import { capital, warningWords } from '../../ui/format/words.ts';
import { usePositionNames } from '../../ui/mound/use-position-names.ts';
import { Part } from '../../ui/parts/part.tsx';
import { usePage } from '../../ui/parts/use-page.ts';
import { sightLines } from './evidence-groups.ts';
import { usePileWords } from './use-pile-words.ts';
import { whyPath } from './why-facts.ts';
import { WhyLimits } from './why-limits.tsx';
import { WhyReadings } from './why-readings.tsx';
import { renderWhy } from './why-render.ts';
import { WhyStanding } from './why-standing.tsx';
import './why.css';

interface WhyKindProps {
  readonly pile: PileDetail;
  readonly kind: WarningKind;
}

type Looked = PileDetail['evidence'][number];

/** The gravest first. */
const evidenceOrder: readonly Evidence[] = ['present', 'missing', 'absent'];

export function WhyKind({ pile, kind }: WhyKindProps) {
  const { text, rich } = usePileWords(pile.site);
  const kindName = warningWords(kind);
  const heading = usePage(text('page-pile.why.title.kind', { kindName, pileName: pile.name }));
  const said = useSaid(renderWhy, pile.site);
  const looked = pile.evidence
    .filter((one) => one.kind === kind)
    .map((one) => ({ ...one, seen: said(one, 'seen'), why: said(one, 'why') }))
    .sort((one, other) => evidenceOrder.indexOf(one.evidence) - evidenceOrder.indexOf(other.evidence));
  const path = `/piles/${encodeURIComponent(pile.id)}`;
  return (
    <div class="page">
      <header class="opening">
        <p class="dateline">
          {rich('page-pile.why.dateline', {
            pileName: pile.name,
            pile: (inner) => <a href={path}>{inner}</a>,
            all: (inner) => <a href={`${path}/why`}>{inner}</a>,
          })}
        </p>
        <h1 ref={heading} tabIndex={-1}>
          {kindName}
        </h1>
        <p class="lead">{meaningTexts[`meaning.${kind}`]}</p>
      </header>
      {looked.length === 0 ? (
        <p class="quiet">{text('page-pile.why.not-looked')}</p>
      ) : (
        <>
          <Found looked={looked} />
          <WhyReadings pile={pile} kind={kind} />
          <Rules looked={looked} />
          <WhyLimits pile={pile} kind={kind} />
          <HoldsBack pile={pile} kind={kind} looked={looked} />
        </>
      )}
      <WhyStanding pile={pile} kind={kind} />
    </div>
  );
}

function Found({ looked }: { readonly looked: readonly Looked[] }) {
  const { text } = usePileWords();
  const listed = useList();
  const nameOf = usePositionNames();
  return (
    <Part id="found" title={text('page-pile.why.found')}>
      <ul class="why-found">
        {sightLines(looked).map(({ places, evidence, seen }) => (
          <li key={`${evidence} ${seen}`}>
            <b>
              {text('page-pile.why.evidence', {
                evidence: evidence === 'missing' ? 'other' : evidence,
                hasPlaces: places.length > 0,
                placesText: listed(places.map(nameOf)),
              })}
            </b>
            {seen}
          </li>
        ))}
      </ul>
    </Part>
  );
}

/** The same rule at several places is said once. */
function Rules({ looked }: { readonly looked: readonly Looked[] }) {
  const { text } = usePileWords();
  const nameOf = usePositionNames();
  const rules = [...new Set(looked.map((one) => one.why))];
  const placesOf = (why: string) =>
    looked.flatMap((one) => (one.why === why && one.position ? [nameOf(one.position)] : []));
  return (
    <Part id="rule" title={text('page-pile.why.rule')}>
      {rules.map((why) => (
        <p key={why}>
          {rules.length > 1 && <b>{capital(placesOf(why).join(', '))}: </b>}
          {why}
        </p>
      ))}
    </Part>
  );
}

function HoldsBack({ pile, kind, looked }: WhyKindProps & { readonly looked: readonly Looked[] }) {
  const { text, rich } = usePileWords();
  const explained = looked.filter((one) => one.explainedBy !== null && one.explainedBy !== kind);
  const holds = [
    ...new Set(pile.evidence.flatMap((one) => (one.explainedBy === kind && one.kind !== kind ? [one.kind] : []))),
  ];
  return (
    <Part id="holds" title={text('page-pile.why.holds')}>
      {explained.length === 0 && (
        <p>
          {looked.some((one) => one.evidence === 'present')
            ? text('page-pile.why.holds.nothing')
            : text('page-pile.why.holds.unseen')}
        </p>
      )}
      {explained.map(({ position, explainedBy }) => (
        <p key={position ?? ''}>
          {rich('page-pile.why.holds.by', {
            position: position ?? 'other',
            kindName: warningWords(explainedBy ?? kind),
            kind: (inner) => <a href={whyPath(pile.id, explainedBy ?? kind)}>{inner}</a>,
          })}
        </p>
      ))}
      {holds.length > 0 && (
        <p>
          {text('page-pile.why.holds.others')}{' '}
          {holds.map((held, i) => (
            <span key={held}>
              {i > 0 && ', '}
              <a href={whyPath(pile.id, held)}>{warningWords(held).toLowerCase()}</a>
            </span>
          ))}
          .
        </p>
      )}
    </Part>
  );
}
