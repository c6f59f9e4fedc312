/** What a pile says while an alarm stands. */
import { plainEnglish } from '../../shared/messages/render.ts';
import type { WarningKind } from '../../shared/warning.ts';
import { chipErrorK } from '../alarms/policies.ts';
import { type PilePosition, pilePositions } from '../profiles/pile-setup.ts';
import { doubtedHeat } from '../warnings/doubted-heat.ts';
import type { Finding } from '../warnings/finding.ts';
import { spokenValue } from '../warnings/spoken-value.ts';
import { duration } from '../words/words.ts';
import { easedTodo } from './eased-todo.ts';
import { againstHand, handSentence } from './hand-sentence.ts';
import { damageSentence, doubtedSentence } from './heat-sentences.ts';
import type { AlarmFacts, Saying } from './saying.ts';

export function alarmSentence(kind: WarningKind, facts: AlarmFacts): Saying {
  const { assessment, temp, present } = facts;
  const finding = present.get(kind);
  const { core } = assessment.positions;
  const coreSays =
    core === null || core.temperatureC === null ? '' : `: ${spokenValue('core', core, assessment.atMs, temp)}`;
  const { actC } = assessment.limits;

  switch (kind) {
    case 'self-heating':
      if (finding === undefined) return hazardUnseen(coreSays, facts);
      return {
        condition: doubtedHottest('heating dangerously', facts) ?? `It is heating dangerously${hottest(facts)}.`,
        next: plainEnglish(finding.todo),
        tone: 'danger',
      };
    case 'overheating':
      if (finding === undefined && isDoubtedHot(facts)) return doubtedSentence(facts);
      if (finding === undefined && !coreIsHeard(facts)) return keptWithoutSight('It was too hot', facts);
      if (finding === undefined) {
        return {
          condition: hasFallen(facts)
            ? `It was too hot and is coming down${coreSays}.`
            : `It was too hot, and no probe shows it now${coreSays}.`,
          next: easedTodo(kind),
          tone: 'watch',
        };
      }
      return {
        condition:
          doubtedHottest('too hot', facts) ??
          `${finding.nearness === 'at' ? 'It is as hot as it should get' : 'It is too hot'}${hottest(facts)}, and ${temp(actC)} is the limit.`,
        next:
          finding.severity === 'urgent'
            ? 'Spread it out thin now, with gloves and a dust mask on: the culture you want is dying.'
            : 'Turn it or spread it thinner now, with gloves and a dust mask on.',
        tone: finding.severity === 'urgent' ? 'danger' : 'act',
      };
    case 'heat-doubted':
      return doubtedSentence(facts);
    case 'heat-damage':
      return damageSentence(facts);
    case 'overheating-soon':
      if (finding === undefined && coreIsHeard(facts)) return pastSoon(facts);
      return {
        condition: `It will soon be too hot${coreSays} and rising.`,
        next: said(finding) ?? 'Be ready to turn it or spread it thinner.',
        tone: 'act',
      };
    case 'bad-smell':
    case 'wrong-growth':
    case 'hand-wet':
    case 'hand-dry':
      return handSentence(kind, facts);
    case 'drying':
      return {
        condition: againstHand('It is drying out', 'hand-dry', facts) ?? `It is drying out${coreSays}.`,
        next: said(finding) ?? easedTodo(kind),
        tone: 'act',
      };
    case 'stalling':
      return {
        condition: `It has stopped warming before its work was done${coreSays}.`,
        next: said(finding) ?? easedTodo(kind),
        tone: 'act',
      };
    case 'chilled':
      return {
        condition: `It is too cold to work${coreSays}.`,
        next: said(finding) ?? easedTodo(kind),
        tone: 'act',
      };
    case 'waterlogged':
      return {
        condition: againstHand('It is too wet to breathe', 'hand-wet', facts) ?? `It is too wet to breathe${coreSays}.`,
        next: said(finding) ?? easedTodo(kind),
        tone: 'act',
      };
    case 'uneven':
      return {
        condition: 'It works unevenly: one part is far hotter than another.',
        next: said(finding) ?? easedTodo(kind),
        tone: 'watch',
      };
    case 'probe-stuck':
      return {
        condition: 'A probe says the same number over and over, so it cannot be believed.',
        next: said(finding) ?? 'Measure by hand and change the probe.',
        tone: 'act',
      };
    case 'probe-out':
      return {
        condition: 'A probe seems to have come out of the pile, or is failing.',
        next: said(finding) ?? 'Push the probe back in, or change it.',
        tone: 'act',
      };
    case 'probe-silent':
      return {
        condition: 'A probe has stopped talking.',
        next: said(finding) ?? 'Look at the probe: battery, cable, radio.',
        tone: 'watch',
      };
  }
}

const said = (finding: Finding | undefined) => finding && plainEnglish(finding.todo);

/** The hazard stands, and no probe shows it now. Where none can, its last order holds, not the one for a pile that is merely lost sight of. */
function hazardUnseen(coreSays: string, facts: AlarmFacts): Saying {
  const isUnknown = isDoubtedHot(facts) || !coreIsHeard(facts);
  const saying = isDoubtedHot(facts) ? doubtedSentence(facts) : keptWithoutSight('It was heating dangerously', facts);
  if (isUnknown) return { ...saying, next: facts.hazardTodo ?? saying.next, tone: 'danger' };
  return {
    condition: hasFallen(facts)
      ? `It was heating dangerously and is coming down${coreSays}.`
      : `It was heating dangerously, and no probe shows it now${coreSays}.`,
    next: facts.hazardTodo ?? easedTodo('self-heating'),
    tone: 'act',
  };
}

/** A newer reading says that it may be hot again. */
function isDoubtedHot({ assessment: { positions, limits, atMs } }: AlarmFacts): boolean {
  return doubtedHeat(positions, limits.actC, atMs) !== null;
}

/** The core was likely to pass its limit and no longer is, or has passed it. Eased is said of a core that has come down. */
function pastSoon(facts: AlarmFacts): Saying {
  const { assessment, temp } = facts;
  const { actC } = assessment.limits;
  const sight = assessment.positions.core;
  const coreC = sight?.temperatureC ?? 0;
  const core = sight === null ? '' : spokenValue('core', sight, assessment.atMs, temp);
  if (coreC > actC - chipErrorK) {
    return {
      condition: `It has just ${coreC > actC ? 'passed' : 'reached'} ${temp(actC)}: ${core}.`,
      next: 'Be at it now, with gloves and a dust mask on, and turn it or spread it thinner if it stays there.',
      tone: 'act',
    };
  }
  if (hasFallen(facts)) {
    return {
      condition: `It was on its way to being too hot and has eased: ${core}.`,
      next: easedTodo('overheating-soon'),
      tone: 'watch',
    };
  }
  return {
    condition:
      assessment.coreCourse === 'rising'
        ? `It still rises, though it may level off before it is too hot: ${core}, and ${temp(actC)} is the limit.`
        : `It was on its way to being too hot and rises no further for now: ${core}.`,
    next: 'Look again within the hour, and be ready to turn it or spread it thinner.',
    tone: 'watch',
  };
}

const hasFallen = ({ assessment }: AlarmFacts) => assessment.coreCourse === 'fallen';

/** Whether what the core probe says now can be believed. */
function coreIsHeard({ assessment }: AlarmFacts): boolean {
  const { core } = assessment.positions;
  return core !== null && !core.silent && !assessment.coreDoubted;
}

function hottestPlace({ assessment }: AlarmFacts): PilePosition | null {
  let hottest: PilePosition | null = null;
  let tempC = Number.NEGATIVE_INFINITY;
  for (const position of pilePositions) {
    const sight = assessment.positions[position];
    if (sight === null || sight.silent || sight.temperatureC === null || sight.temperatureC <= tempC) continue;
    hottest = position;
    tempC = sight.temperatureC;
  }
  return hottest;
}

function hottest(facts: AlarmFacts): string {
  const { assessment, temp } = facts;
  const place = hottestPlace(facts);
  const sight = place === null ? null : assessment.positions[place];
  return place === null || sight === null ? '' : `: ${spokenValue(place, sight, assessment.atMs, temp)}`;
}

/** The hottest place jumped since it was known to be so hot: down, as when it is opened, or further up. */
function doubtedHottest(was: string, facts: AlarmFacts): string | null {
  const place = hottestPlace(facts);
  const sight = place === null ? null : facts.assessment.positions[place];
  if (sight?.doubted == null) return null;
  const isUp = sight.doubted.temperatureC > (sight.temperatureC ?? 0);
  const start = isUp ? `It is ${was} and may be hotter still` : `It was ${was} and may have cooled`;
  return `${start}${hottest(facts)}, and the next reading decides.`;
}

/** An alarm that stands without fresh evidence: it says when it was last seen, and asks for a hand measurement. */
function keptWithoutSight(was: string, { assessment, temp }: AlarmFacts): Saying {
  const core = assessment.positions.core;
  const quiet = core?.atMs == null ? '' : ` ${duration(assessment.atMs - core.atMs)} ago`;
  const last = core?.temperatureC == null ? '' : ` at ${temp(core.temperatureC)}`;
  if (assessment.coreDoubted) {
    return {
      condition: `${was} before its core probe went wrong, and nobody knows how it is now.`,
      next: 'Go and measure the core by hand now.',
      tone: 'act',
    };
  }
  return {
    condition: `${was} when the core probe fell silent${quiet}${last}, and nobody knows how it is now.`,
    next: 'Go and measure the core by hand now.',
    tone: 'act',
  };
}
