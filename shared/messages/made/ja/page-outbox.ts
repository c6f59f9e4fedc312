// Made from ../../ja/page-outbox.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageOutboxParams } from '../params/page-outbox.ts';

export const pageOutboxTexts: PageTexts<PageOutboxParams> = {
  "page-outbox.own": [["entryCount",{"other":[["#"]]},1],"件の記録がこの端末で待っています。",["<","send","いま送る"]],
  "page-outbox.of": [["personName"],"さんの",["entryCount",{"other":[["#"]]},1],"件の記録が、",["personName"],"さんがここでログインするまでこの端末で待っています。"],
  "page-outbox.nobodys": ["誰もログインしていないときにここで書かれた",["entryCount"],"件の記録が、誰のものか言われるのを待っています。"],
  "page-outbox.see": [["entryCount",{"other":"見る"},1]],
  "page-outbox.refused": [["entryCount",{"other":[["#"]]},1],"件の記録が受け付けられませんでした"],
};
