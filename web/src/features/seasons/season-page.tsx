/** Batches of past seasons side by side: curves, measures, two groups in words. */

import { useMemo, useState } from 'preact/hooks';
import { useLocation, useRoute } from 'preact-iso';
import type { CompareAnswer } from '../../../../shared/contracts/seasons.ts';
import { reasonOf } from '../../data/client.ts';
import { usePrefs } from '../../data/prefs.ts';
import { useQuery } from '../../data/use-query.ts';
import { counted } from '../../ui/format/words.ts';
import { FileLink } from '../../ui/parts/file-link.tsx';
import { Choice, PickField, TextField } from '../../ui/parts/forms.tsx';
import { May } from '../../ui/parts/only-for.tsx';
import { Part } from '../../ui/parts/part.tsx';
import { usePage } from '../../ui/parts/use-page.ts';
import { addressOf, type Comparison, choiceQuery, idsIn, readComparison, type View } from './address.ts';
import { Apart } from './apart.tsx';
import { Choose } from './choose.tsx';
import { type ColourFact, colourFacts, curveGroups, tellingFact } from './curve-groups.ts';
import { MeasureTable } from './measure-table.tsx';
import { splitNames } from './named-groups.ts';
import { Overlay } from './overlay.tsx';
import { getCompared, getCurves } from './season-api.ts';
import { SeasonNames } from './season-names.tsx';
import { foundIn, sorted } from './table-rows.ts';
import { TwoGroups } from './two-groups.tsx';
import './season.css';
import './measure-table.css';

export function SeasonsPage() {
  const heading = usePage('Seasons side by side');
  const { query } = useRoute();
  const { route } = useLocation();
  const comparison = useMemo(() => readComparison(query), [query]);
  const asked = choiceQuery(comparison.choice);
  const compared = useQuery(`compared ${asked}`, () => getCompared(asked));
  const go = (change: Partial<Comparison>) => route(addressOf({ ...comparison, ...change }), true);
  return (
    <div class="page seasons-page">
      <h1 ref={heading} tabIndex={-1}>
        Seasons side by side
      </h1>
      <p class="lead no-print">
        What past batches did, laid over each other. The address of this page holds the choice, so a link shows the
        same.
      </p>
      {compared.error !== undefined && <p class="refusal">{reasonOf(compared.error)}</p>}
      {compared.value && (
        <Choose choice={comparison.choice} offers={compared.value.offers} onChoice={(choice) => go({ choice })} />
      )}
      {compared.value ? (
        <Compared
          answer={compared.value}
          comparison={comparison}
          asked={asked}
          onView={(change) => go({ view: { ...comparison.view, ...change } })}
          onNamed={() => void compared.refresh()}
        />
      ) : (
        compared.error === undefined && <p class="quiet">Reading past batches …</p>
      )}
    </div>
  );
}

interface ComparedProps {
  readonly answer: CompareAnswer;
  readonly comparison: Comparison;
  readonly asked: string;
  readonly onView: (change: Partial<View>) => void;
  readonly onNamed: () => void;
}

/** Which batches are shown in which order, and their curves. */
function useShown({ answer, comparison: { view }, asked }: ComparedProps) {
  const curves = useQuery(`curves ${asked}`, () => getCurves(asked));
  const shown = useMemo(
    () => sorted(foundIn(answer.batches, view.find), view.sort, view.order),
    [answer, view.find, view.sort, view.order],
  );
  const names = useMemo(() => new Map(answer.batches.map(({ id, name }) => [id, name])), [answer]);
  const nameOf = (id: string) => names.get(id) ?? id;
  const inOrder = useMemo(() => {
    const byId = new Map(curves.value?.curves.map((curve) => [curve.id, curve]));
    return shown.flatMap(({ id }) => byId.get(id) ?? []);
  }, [curves.value, shown]);
  const broughtOut = idsIn(view.out).filter((id) => shown.some((batch) => batch.id === id));
  return { curves, shown, nameOf, inOrder, broughtOut };
}

function Compared(props: ComparedProps) {
  const { answer, asked, onView, onNamed } = props;
  const { view } = props.comparison;
  const found = useShown(props);
  const { shown } = found;
  const { unit } = usePrefs();
  if (answer.batches.length === 0) {
    return (
      <p class="sentence">
        No batch fits this choice. A batch comes here when it has ended
        <May to="keeper" otherwise=".">
          ; earlier ones can be <a href="/seasons/earlier">brought in from a notebook or a log</a>.
        </May>
      </p>
    );
  }
  return (
    <>
      <div class="seasons-tools">
        <p>
          {counted(shown.length, 'batch', 'batches')}
          {answer.leftOut > 0 && `, and ${answer.leftOut} older ones left out`}
        </p>
        <Tools asked={asked} />
      </div>
      <Curves of={found} view={view} onView={onView} />
      <Measures of={found} view={view} onView={onView} />
      <Part id="groups" title="Two groups">
        <TwoGroups batches={shown} view={view} unit={unit} onView={onView} />
      </Part>
      <May to="keeper">
        <div class="no-print">
          <Part id="earlier" title="Earlier years">
            <p>
              A notebook with one temperature a day is enough: <a href="/seasons/earlier">bring in an earlier batch</a>.
            </p>
          </Part>
        </div>
      </May>
      <div class="no-print">
        <Part id="season-names" title="Names of seasons">
          <SeasonNames seasons={answer.offers.seasons} onNamed={onNamed} />
        </Part>
      </div>
    </>
  );
}

interface ShownProps extends Pick<ComparedProps, 'onView'> {
  readonly of: ReturnType<typeof useShown>;
  readonly view: View;
}

const factNames: Record<ColourFact, string> = { ...splitNames, ending: 'how it ended' };

function Curves({ of: { curves, shown, inOrder, nameOf, broughtOut }, view, onView }: ShownProps) {
  const { unit } = usePrefs();
  const fact = useMemo(
    () => (view.colour === 'best' ? tellingFact(shown) : view.colour === 'none' ? undefined : view.colour),
    [view.colour, shown],
  );
  const groups = useMemo(() => (fact ? curveGroups(shown, fact) : []), [fact, shown]);
  return (
    <Part id="curves" title="Curves">
      <div class="seasons-views">
        <Choice
          legend="Counted from"
          value={view.by}
          choices={[
            ['age', 'when it was laid'],
            ['warming', 'when warming began'],
          ]}
          onValue={(by) => onView({ by })}
        />
        <Choice
          legend="Drawn"
          value={view.draw}
          choices={[
            ['over', 'over each other'],
            ['apart', 'each by itself'],
          ]}
          onValue={(draw) => onView({ draw })}
        />
        {view.draw === 'over' && (
          <PickField
            label="Coloured by"
            value={fact ?? 'none'}
            choices={[...colourFacts.map((one) => [one, factNames[one]] as const), ['none', 'nothing'] as const]}
            onValue={(colour) => onView({ colour })}
          />
        )}
      </div>
      {curves.value === undefined ? (
        <p class="quiet">{curves.error === undefined ? 'Reading curves …' : reasonOf(curves.error)}</p>
      ) : view.draw === 'over' ? (
        <Overlay curves={inOrder} nameOf={nameOf} by={view.by} broughtOut={broughtOut} unit={unit} groups={groups} />
      ) : (
        <Apart curves={inOrder} nameOf={nameOf} by={view.by} unit={unit} />
      )}
    </Part>
  );
}

function Measures({ of: { shown, broughtOut }, view, onView }: ShownProps) {
  const { unit } = usePrefs();
  return (
    <section aria-labelledby="measures" class="measures-part">
      <h2 id="measures">Measures</h2>
      <div class="measures-find">
        <TextField label="Find in names and outcomes" value={view.find} onValue={(find) => onView({ find })} />
      </div>
      <MeasureTable
        batches={shown}
        view={view}
        broughtOut={broughtOut}
        unit={unit}
        onSort={(sort, order) => onView({ sort, order })}
        onBringOut={(ids) => onView({ out: ids.join(',') })}
      />
      <p class="hint no-print">
        A tick brings a curve out above. Activity-hours and the moisture at the end are sums of our own from the core
        and the air; the outcome is what a person wrote. Figures of heat come from ten-minute means.
      </p>
    </section>
  );
}

function Tools({ asked }: { readonly asked: string }) {
  const [status, setStatus] = useState('');
  const copy = async () => {
    try {
      await navigator.clipboard.writeText(location.href);
      setStatus('The link is copied.');
    } catch {
      setStatus('This browser does not let a page copy: take the address from its own line.');
    }
  };
  return (
    <div class="tools">
      <button type="button" onClick={() => void copy()}>
        Copy the link
      </button>
      <button type="button" onClick={() => print()}>
        Print
      </button>
      <FileLink path={`/api/compare.csv?${asked}`} name="batches-compared.csv">
        CSV
      </FileLink>
      <FileLink path={`/api/compare.json?${asked}`} name="batches-compared.json">
        JSON
      </FileLink>
      <span role="status" class={status ? 'hint' : 'unseen'}>
        {status}
      </span>
    </div>
  );
}
