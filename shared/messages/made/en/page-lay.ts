// Made from ../../en/page-lay.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageLayParams } from '../params/page-lay.ts';

export const pageLayTexts: PageTexts<PageLayParams> = {
  "page-lay.title": "Lay a pile",
  "page-lay.lead": "Leave empty what you do not know. Branhearth can then tell you less about the pile, and says so.",
  "page-lay.place": "Place",
  "page-lay.place.new": "Somewhere new",
  "page-lay.place.name": "Name of the place",
  "page-lay.place.name.hint": "Yard, shed, terrace: where its probes are.",
  "page-lay.place.usual": "My yard",
  "page-lay.name": "Name of the pile",
  "page-lay.lay": "Lay the pile",
  "page-lay.stage": "Stage",
  "page-lay.stage.of": [["stage",{"bran":"Bran stage","soil":"Soil stage","other":""},0]],
  "page-lay.not-given": "Not given",
  "page-lay.material": "Made of",
  "page-lay.depth": "Depth",
  "page-lay.depth.unit": "cm",
  "page-lay.shelter": "Where it lies",
  "page-lay.more": "More about the batch",
  "page-lay.laid-at": "Laid",
  "page-lay.laid-at.hint": "Empty means now.",
  "page-lay.moisture": "Moisture as laid",
  "page-lay.moisture.unit": "%, wet basis",
  "page-lay.mass": "Mass as laid",
  "page-lay.mass.unit": "kg, with its water",
  "page-lay.dose": "Culture mixed in",
  "page-lay.dose.unit": "% of the wet mass",
  "page-lay.cover": "Cover",
};
