/** What a pile looks like from inside at one moment, for records and for showing. */
import { pileAliveFrac } from './acts.ts';
import { aliveFrac, freeAirFrac, moistureFrac, thicknessM } from './layer.ts';
import { type Pile, pileDepthM, pileMassKg } from './pile.ts';

interface LayerPicture {
  readonly tempC: number;
  readonly moistureFrac: number;
  readonly freeAirFrac: number;
  readonly oxygenFrac: number;
  /** Wanted cells alive, of all that grew [-]. */
  readonly aliveFrac: number;
  readonly thicknessM: number;
}

export interface PilePicture {
  readonly atMs: number;
  readonly surfaceC: number;
  readonly depthM: number;
  readonly massKg: number;
  /** Over the whole pile [-]. */
  readonly moistureFrac: number;
  readonly aliveFrac: number;
  readonly layers: readonly LayerPicture[];
}

export function pictureOf(pile: Pile): PilePicture {
  const layers = pile.layers.map(
    (layer): LayerPicture => ({
      tempC: layer.tempC,
      moistureFrac: moistureFrac(layer),
      freeAirFrac: freeAirFrac(layer, pile.material),
      oxygenFrac: layer.oxygenFrac,
      aliveFrac: aliveFrac(layer),
      thicknessM: thicknessM(layer),
    }),
  );
  const massKg = pileMassKg(pile);
  const waterKg = pile.footprintM2 * pile.layers.reduce((sum, layer) => sum + layer.waterKgM2, 0);
  return {
    atMs: pile.atMs,
    surfaceC: pile.surfaceC,
    depthM: pileDepthM(pile),
    massKg,
    moistureFrac: waterKg / massKg,
    aliveFrac: pileAliveFrac(pile),
    layers,
  };
}
