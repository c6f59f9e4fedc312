// Made from ../../en/page-mound.json by `npm run messages`; change that instead.
import type { NoParams } from '../../param-types.ts';

export interface PageMoundParams {
  'page-mound.place': { readonly position: 'air' | 'base' | 'core' | 'edge' | 'other' | 'top' };
  'page-mound.label': { readonly stand: 'notMeasured' | 'other' | 'silent' };
  'page-mound.label.doubted': { readonly tempText: string };
  'page-mound.doubted': { readonly fromText: string; readonly tempText: string };
  'page-mound.section': { readonly placesText: string };
  'page-mound.section.none': NoParams;
  'page-mound.section.next': { readonly beforeText: string; readonly nextText: string };
  'page-mound.section.measured': { readonly dampText: string; readonly heatText: string; readonly isDamp: boolean; readonly isHot: boolean; readonly position: 'air' | 'base' | 'core' | 'edge' | 'other' | 'top' };
  'page-mound.section.by-hand': { readonly ageText: string; readonly position: 'air' | 'base' | 'core' | 'edge' | 'other' | 'top'; readonly wasHot: boolean; readonly wasText: string };
  'page-mound.section.silent': { readonly hasSince: boolean; readonly position: 'air' | 'base' | 'core' | 'edge' | 'other' | 'top'; readonly sinceText: string; readonly wasHot: boolean; readonly wasText: string };
  'page-mound.damp': { readonly aboutCount: number; readonly highCount: number; readonly lowCount: number };
  'page-mound.empty': NoParams;
  'page-mound.key': NoParams;
  'page-mound.key.says': NoParams;
}
