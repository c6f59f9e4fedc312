/** What finds, chooses and orders many piles. */
import { useState } from 'preact/hooks';
import type { Site } from '../../../../shared/contracts/sites.ts';
import { pageHomeTexts } from '../../../../shared/messages/made/en/page-home.ts';
import { stages } from '../../../../shared/names.ts';
import { usePageTexts } from '../../data/live/page-texts.ts';
import { PickField, TextField } from '../../ui/parts/forms.tsx';
import { type HomeView, pileOrders, pileStates } from './home-view.ts';
import './home-controls.css';

interface HomeControlsProps {
  readonly view: HomeView;
  readonly sites: readonly Site[];
  readonly shownCount: number;
  readonly pileCount: number;
  readonly onView: (change: Partial<HomeView>) => void;
  readonly onAll: () => void;
}

export function HomeControls({ view, sites, shownCount, pileCount, onView, onAll }: HomeControlsProps) {
  const { text } = usePageTexts(pageHomeTexts);
  const [isWide] = useState(() => matchMedia('(min-width: 60rem)').matches);
  return (
    <search class="form home-controls">
      <TextField label={text('page-home.find')} value={view.find} onValue={(find) => onView({ find })} />
      <details class="home-choices" open={isWide || isChosen(view)}>
        <summary>{text('page-home.choose')}</summary>
        <div class="home-choices-fields">
          {sites.length > 1 && (
            <PickField
              label={text('page-home.site')}
              value={view.site}
              choices={[['', text('page-home.site.all')], ...sites.map(({ id, name }) => [id, name] as const)]}
              onValue={(site) => onView({ site })}
            />
          )}
          <PickField
            label={text('page-home.stage-choice')}
            value={view.stage}
            choices={['' as const, ...stages].map((stage) => [
              stage,
              text('page-home.stage-choice.of', { stage: stage || 'other' }),
            ])}
            onValue={(stage) => onView({ stage })}
          />
          <PickField
            label={text('page-home.state')}
            value={view.state}
            choices={['' as const, ...pileStates].map((state) => [
              state,
              text('page-home.state.of', { state: state || 'other' }),
            ])}
            onValue={(state) => onView({ state })}
          />
          <PickField
            label={text('page-home.order')}
            value={view.order}
            choices={pileOrders.map((order) => [
              order,
              text('page-home.order.of', { order: order === 'need' ? 'other' : order }),
            ])}
            onValue={(order) => onView({ order })}
          />
        </div>
      </details>
      <p class="home-shown" role="status">
        {shownCount < pileCount && (
          <>
            {text('page-home.shown', { shownCount, pileCount })}{' '}
            <button type="button" class="link" onClick={onAll}>
              {text('page-home.show-all')}
            </button>
          </>
        )}
      </p>
    </search>
  );
}

/** Whoever chose something sees what, however small the page. */
function isChosen({ site, stage, state, order }: HomeView): boolean {
  return site !== '' || stage !== '' || state !== '' || order !== 'need';
}
