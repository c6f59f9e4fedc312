// Made from ../../en/page-search.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageSearchParams } from '../params/page-search.ts';

export const pageSearchTexts: PageTexts<PageSearchParams> = {
  "page-search.title": "Search",
  "page-search.label": "Search piles, batches, journal and probes",
  "page-search.hint": "Words in any order; accents do not matter.",
  "page-search.looking": "Searching…",
  "page-search.none": "Nothing has all of these words.",
  "page-search.group": [["group",{"piles":"Piles","batches":"Batches","entries":"Journal","other":"Probes"},0]],
  "page-search.count": [["foundCount",{"=1":"one found","other":[["#"]," found"]},1]],
  "page-search.more": ["The first ",["shownCount",{"other":[["#"]]},1]," are shown. Type more to find fewer."],
  "page-search.cut": ["Of the journal, the newest ",["entryCount",{"other":[["#"]]},1]," entries were searched."],
  "page-search.entry": [["whenText"],["isNamed",{"true":[", ",["byName"]],"other":""},0]],
  "page-search.probe.free": "in no pile yet",
};
