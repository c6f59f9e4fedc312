import { figuresMeasured } from '../../shared/figures-measured.ts';
import type { MeasureKind } from '../../shared/measure.ts';

/** An amount that was worked out, in as many figures as a person can measure out. */
export const asMeasured = (kind: MeasureKind, value: number) => ({ value, figures: figuresMeasured(kind, value) });
