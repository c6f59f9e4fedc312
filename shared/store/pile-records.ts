/** Piles with their batches, and the probes that serve them. */
import type { GivenRecipe } from '../contracts/domain/batch.ts';
import type { Position, Stage } from '../names.ts';
import type { KnownKey } from '../probe-key.ts';
import type { StageLimits } from '../stage.ts';

export interface PileRecord {
  readonly id: string;
  readonly siteId: string;
  readonly name: string;
  readonly createdAtMs: number;
}

export interface BatchRecord {
  readonly id: string;
  readonly pileId: string;
  readonly stage: Stage;
  readonly startedAtMs: number;
  readonly endedAtMs: number | null;
  readonly outcome: string | null;
  /** As given: what nobody said is absent. */
  readonly recipe: GivenRecipe;
  /** Only what departs from the stage's limits. */
  readonly limits: Partial<StageLimits>;
}

export interface ClaimRecord {
  readonly site: string;
  readonly probe: string;
  readonly pileId: string;
  readonly position: Position;
  readonly fromMs: number;
  readonly toMs: number | null;
}

export interface ProbeRecord {
  readonly site: string;
  readonly probe: string;
  readonly online: boolean | null;
  readonly onlineAtMs: number | null;
  readonly temperatureOffsetC: number;
}

/** Air that somebody foretold for a site, oldest point first. */
export interface AirAheadRecord {
  readonly siteId: string;
  readonly source: string;
  readonly issuedMs: number;
  readonly receivedMs: number;
  readonly points: readonly { readonly atMs: number; readonly tempC: number; readonly humidityPct: number | null }[];
}

/** A key of the broker with what it reaches; of its secret only hashes are kept. */
export interface ProbeKeyRecord extends KnownKey {
  readonly name: string;
  /** The same secret as Mosquitto's password file wants it. */
  readonly mosquittoHash: string;
  readonly madeAtMs: number;
  readonly madeBy: string | null;
  readonly revokedAtMs: number | null;
  readonly revokedBy: string | null;
}
