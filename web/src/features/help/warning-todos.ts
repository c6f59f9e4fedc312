/** What each kind of warning asks for, and what can hurt in it: the same messages as on a pile’s page, as they come most. */
import { cautions } from '../../../../core/profiles/cautions.ts';
import type { ConditionKind } from '../../../../shared/conditions/kinds.ts';
import { type Message, message } from '../../../../shared/messages/message.ts';
import { selfHeatingLadder } from '../../../../shared/stage.ts';
import { figures } from './figures.ts';

/** As hot a pile may go on by itself, and from where on nobody goes near it. */
export const selfHeatingCaution = message('caution.self-heating', {
  heatsC: { valueC: selfHeatingLadder[0].fromC, decimals: 0 },
  keepAwayC: figures.glowC,
});

interface Todo {
  readonly says: Message;
  /** Of a step of self-heating [°C]. */
  readonly fromC?: number;
}

interface Entry {
  readonly todos: readonly Todo[];
  readonly cautions: readonly Message[];
  /** Whether it is turned or mixed, which throws up spores. */
  readonly isTurned?: true;
}

const few = { isHot: false, amountPart: message('warnings.water.little') } as const;
const core = { position: 'core' } as const;

const says = (...all: readonly Message[]): Todo[] => all.map((one) => ({ says: one }));

const steps = [1, 2, 3, 4, 5] as const;

export const warningEntries: Readonly<Record<ConditionKind, Entry>> = {
  'self-heating': {
    todos: steps.map((step) => ({
      fromC: selfHeatingLadder[step - 1]?.fromC ?? Number.NaN,
      says: message(`warnings.self-heating.todo.${step}`),
    })),
    cautions: [selfHeatingCaution, cautions.fire],
  },
  overheating: {
    todos: says(message('warnings.overheating.todo.turn'), message('warnings.overheating.todo.spread')),
    cautions: [cautions.scald],
    isTurned: true,
  },
  'heat-doubted': {
    todos: says(message('warnings.heat-doubted.todo.closed', core), message('warnings.heat-doubted.todo.turn', core)),
    cautions: [cautions.fire],
  },
  'wrong-growth': {
    todos: says(message('warnings.wrong-growth.todo.patches'), message('warnings.wrong-growth.todo.throughout')),
    cautions: [cautions.colouredMould],
  },
  'bad-smell': {
    todos: says(message('warnings.bad-smell.todo.other'), message('warnings.bad-smell.todo.ammonia')),
    cautions: [cautions.foulAir, cautions.ammonia],
    isTurned: true,
  },
  'hand-wet': { todos: says(message('warnings.hand-wet.todo')), cautions: [cautions.foulAir], isTurned: true },
  'hand-dry': {
    todos: says(message('warnings.hand-dry.todo', few)),
    cautions: [cautions.watering, cautions.handful],
    isTurned: true,
  },
  'probe-silent': {
    todos: says(message('warnings.probe-silent.todo.core')),
    cautions: [cautions.unknownHeat],
  },
  'probe-stuck': { todos: says(message('warnings.probe-stuck.todo')), cautions: [cautions.unknownHeat] },
  'probe-out': {
    todos: says(message('warnings.probe-out.todo.pulled'), message('warnings.probe-out.todo.failing')),
    cautions: [cautions.unknownHeat],
  },
  'probes-swapped': { todos: says(message('warnings.probes-swapped.todo')), cautions: [cautions.unknownHeat] },
  'overheating-soon': { todos: says(message('warnings.overheating-soon.todo')), cautions: [], isTurned: true },
  'heat-damage': {
    todos: says(message('warnings.heat-damage.todo')),
    cautions: [cautions.smelling],
    isTurned: true,
  },
  drying: {
    todos: says(message('warnings.drying.todo.water', few)),
    cautions: [cautions.watering, cautions.hotHandful],
  },
  waterlogged: {
    todos: says(message('warnings.waterlogged.todo')),
    cautions: [cautions.foulAir, cautions.handful],
    isTurned: true,
  },
  chilled: { todos: says(message('warnings.chilled.todo')), cautions: [cautions.deep] },
  stalling: {
    todos: says(
      message('warnings.stalling.todo.dry'),
      message('warnings.stalling.todo.idle'),
      message('warnings.stalling.todo.feel'),
    ),
    cautions: [cautions.hotHandful],
    isTurned: true,
  },
  uneven: {
    todos: says(message('warnings.uneven.todo', { cool: 'base' }), message('warnings.uneven.todo', { cool: 'other' })),
    cautions: [],
    isTurned: true,
  },
};
