/**
 * What the piles of the fault bench really are, and which readings their probes made, each of one time and made once, with
 * the fault under which it was made.
 */

export interface TruePile {
  readonly id: string;
  readonly site: string;
  /** Server time from which it heats up; null while it stays within its band. */
  heatedAtMs: number | null;
}

export interface TrueReading {
  readonly atMs: number;
  readonly value: number;
  /** Index of the fault under way, or just over. */
  readonly during: number;
}

export interface TrueProbe {
  readonly pile: TruePile;
  readonly probe: string;
  readonly position: 'core' | 'air';
  readonly made: TrueReading[];
}

const sites = ['north-shed', 'south-shed', 'upper-terrace', 'lower-terrace'];
/** Well over the 50 °C at which a pile counts as overheating, under the 65 °C of self-heating. */
const hotC = 57;
const heatingForMs = 4 * 60_000;

export function truePiles(count: number): TruePile[] {
  return Array.from({ length: count }, (_, index) => {
    const site = sites[index % sites.length] ?? '';
    return { id: `bed-${index}`, site, heatedAtMs: null };
  });
}

export function probesOf(piles: readonly TruePile[]): TrueProbe[] {
  return piles.flatMap((pile) =>
    (['core', 'air'] as const).map((position) => ({ pile, probe: `${pile.id}-${position}`, position, made: [] })),
  );
}

/** Makes the reading of now. */
export function makeReading(probe: TrueProbe, atMs: number, during: number): TrueReading {
  const swing = 1.5 * Math.sin(atMs / 900_000);
  const reading = {
    atMs,
    value: sixteenth(probe.position === 'air' ? 20 + swing : coreC(probe.pile, atMs, swing)),
    during,
  };
  probe.made.push(reading);
  return reading;
}

function coreC({ heatedAtMs }: TruePile, atMs: number, swing: number): number {
  const share = heatedAtMs === null ? 0 : Math.min(1, Math.max(0, atMs - heatedAtMs) / heatingForMs);
  return 40 + swing + share * (hotC - 40);
}

/** As one-wire chips speak. */
const sixteenth = (tempC: number) => Math.round(tempC * 16) / 16;
