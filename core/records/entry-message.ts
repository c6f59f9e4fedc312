/** One plain phrase for an entry, e.g. "Watered, 8 L". */
import { type EntryFacts, type growthPlaces, sampleMoistureFrac } from '../../shared/entry.ts';
import { type Message, message, verbatim } from '../../shared/messages/message.ts';
import type { Stage } from '../../shared/names.ts';
import { squeezeFelt, squeezeMeans } from '../../shared/squeeze.ts';

/** @param stage Of the batch that it is about: what a squeeze means goes by it, and is left out where it is not known. */
export function entryMessage(what: EntryFacts, stage?: Stage): Message {
  switch (what.kind) {
    case 'turned':
    case 'uncovered':
    case 'photo':
    case 'note':
      return message(`entry.${what.kind}`);
    case 'watered':
      return what.amountL === undefined
        ? message('entry.watered')
        : message('entry.watered-by', { amountL: what.amountL });
    case 'spread':
    case 'heaped':
      return what.depthM === undefined
        ? message(`entry.${what.kind}`)
        : message(`entry.${what.kind}-to`, { bedCm: what.depthM * 100 });
    case 'covered':
      return message('entry.covered', { cover: what.cover ?? 'other' });
    case 'moved':
      return what.place === undefined ? message('entry.moved') : message('entry.moved-to', { placeName: what.place });
    case 'rained':
      return what.rainMm === undefined ? message('entry.rained') : message('entry.rained-by', { rainMm: what.rainMm });
    case 'squeeze':
      return squeezed(what, stage);
    case 'smell':
      return message('entry.smell', { smellsList: what.smells.map((smell) => message(`entry.smell.${smell}`)) });
    case 'growth':
      return message('entry.growth', {
        colourPart:
          what.otherColour !== undefined && what.colour === 'other'
            ? verbatim(what.otherColour)
            : message(`entry.colour.${what.colour}`),
        amount: what.amount ?? 'other',
        place: placeOf(what.place),
      });
    case 'pests':
      return message('entry.pests', { pestsName: what.what, amount: what.amount ?? 'other' });
    case 'sample':
      return what.dryG === undefined
        ? message('entry.sample', { wetG: what.wetG })
        : message('entry.sample-dried', {
            wetG: what.wetG,
            dryG: what.dryG,
            moisturePct: 100 * sampleMoistureFrac(what.wetG, what.dryG),
          });
    case 'measured':
      return what.moisturePct === undefined
        ? message('entry.measured', { position: what.position, measuredC: what.temperatureC })
        : message('entry.measured-meter', {
            position: what.position,
            measuredC: what.temperatureC,
            meterPct: what.moisturePct,
          });
    case 'readiness':
      return message('entry.readiness', { smell: what.smell, look: what.look, isReady: what.ready });
    case 'verdict':
      return what.why === undefined
        ? message('entry.verdict', { verdict: what.verdict })
        : message('entry.verdict-why', { verdict: what.verdict, whyPart: message(`verdict.why.${what.why}`) });
  }
}

function squeezed({ feel, place }: Extract<EntryFacts, { kind: 'squeeze' }>, stage: Stage | undefined): Message {
  const where = placeOf(place);
  const feelPart = squeezeFelt(feel);
  return stage === undefined
    ? message('entry.squeeze', { place: where, feelPart })
    : message('entry.squeeze-judged', { place: where, feelPart, meaningPart: squeezeMeans(feel, stage) });
}

/** As the texts choose by it, whose keys hold no hyphen. */
const placeOf = (place: (typeof growthPlaces)[number] | undefined) =>
  place === undefined ? 'other' : place === 'all-through' ? 'through' : place;
