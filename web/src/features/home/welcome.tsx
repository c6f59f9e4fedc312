/** An empty start: asks what one has, and each answer ends at a pile with a sentence. */
import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';
import { pageWelcomeTexts } from '../../../../shared/messages/made/en/page-welcome.ts';
import { usePageTexts } from '../../data/live/page-texts.ts';
import { useInstallation } from '../../data/live/use-installation.ts';
import { useMay } from '../../data/me.ts';
import { EmptyMound } from '../../ui/mound/empty-mound.tsx';
import { Choice } from '../../ui/parts/forms.tsx';
import { usePage } from '../../ui/parts/use-page.ts';
import { PileForm } from '../pile/pile-form.tsx';
import { WhereItSends } from '../start/where-it-sends.tsx';
import './welcome.css';

export function Welcome() {
  const mayLay = useMay('keeper');
  return mayLay ? <FirstSteps /> : <NothingYet />;
}

const useWords = () => usePageTexts(pageWelcomeTexts);
const ways = ['thermometer', 'sensor', 'parts', 'nothing'] as const;
type Way = (typeof ways)[number];

const practise = (inner: ComponentChildren) => <a href="/practice">{inner}</a>;

function NothingYet() {
  const { text, rich } = useWords();
  const heading = usePage(text('page-welcome.title'));
  return (
    <div class="page narrow">
      <h1 ref={heading} tabIndex={-1}>
        {text('page-welcome.none')}
      </h1>
      <p class="lead">{text('page-welcome.none.hint')}</p>
      <div class="welcome-mound">
        <EmptyMound />
      </div>
      <p>{rich('page-welcome.practise-meanwhile', { link: practise })}</p>
    </div>
  );
}

function FirstSteps() {
  const { text } = useWords();
  const heading = usePage(text('page-welcome.title'));
  const isTalking = useInstallation(({ probeCounts }) => probeCounts.all > 0);
  const [chosen, setChosen] = useState<Way>();
  // Whoever has a probe that talks already needs no question.
  const way = chosen ?? (isTalking ? 'sensor' : undefined);
  return (
    <div class="page welcome">
      <div class="opening welcome-opening">
        <h1 ref={heading} tabIndex={-1}>
          {text('page-welcome.lay-first')}
        </h1>
        <p class="lead">{text('page-welcome.lead')}</p>
        <div class="welcome-ways">
          <Choice
            legend={text('page-welcome.have')}
            value={way}
            choices={ways.map((one) => [one, text(`page-welcome.have.${one}`)] as const)}
            onValue={setChosen}
          />
        </div>
        {way === undefined && (
          <div class="welcome-mound">
            <EmptyMound />
          </div>
        )}
      </div>
      {way === 'thermometer' && <WithThermometer />}
      {way === 'sensor' && <WithSensor isTalking={isTalking} />}
      {way === 'parts' && <WithParts isTalking={isTalking} />}
      {way === 'nothing' && <WithNothing />}
    </div>
  );
}

function WithThermometer() {
  const { text } = useWords();
  return (
    <section class="welcome-way">
      <p>{text('page-welcome.thermometer')}</p>
      <PileForm measures="thermometer" />
    </section>
  );
}

/** What talks is asked for first; until then, how it is set up. The order stays once something was begun. */
function WithSensor({ isTalking }: { readonly isTalking: boolean }) {
  const { text } = useWords();
  const [talkedAtFirst] = useState(isTalking);
  const sends = (
    <section class="welcome-way" aria-labelledby="sends-to">
      <h2 id="sends-to">{text('page-welcome.sensor.where')}</h2>
      <WhereItSends />
    </section>
  );
  return (
    <>
      {!talkedAtFirst && sends}
      <section class="welcome-way" aria-labelledby="its-pile">
        <h2 id="its-pile">{text('page-welcome.sensor.pile')}</h2>
        <PileForm />
      </section>
      {talkedAtFirst && sends}
    </>
  );
}

function WithParts({ isTalking }: { readonly isTalking: boolean }) {
  const { rich } = useWords();
  return (
    <>
      <p>{rich('page-welcome.parts', { link: (inner) => <a href="/help/probe">{inner}</a> })}</p>
      <WithSensor isTalking={isTalking} />
    </>
  );
}

function WithNothing() {
  const { text, rich } = useWords();
  return (
    <section class="welcome-way">
      <p>{text('page-welcome.nothing')}</p>
      <p>
        <a class="button primary" href="/practice">
          {text('page-welcome.nothing.do')}
        </a>
      </p>
      <p class="quiet">{rich('page-welcome.demo', { command: (inner) => <code>{inner}</code> })}</p>
    </section>
  );
}
