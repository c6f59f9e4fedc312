// Made from ../../ko/page-outbox.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageOutboxParams } from '../params/page-outbox.ts';

export const pageOutboxTexts: PageTexts<PageOutboxParams> = {
  "page-outbox.own": ["기록 ",["entryCount",{"other":[["#"],"개"]},1],"가 이 기기에서 기다려요. ",["<","send","지금 보내기"]],
  "page-outbox.of": [["personName"]," 님의 기록 ",["entryCount",{"other":[["#"],"개"]},1],"가 이 기기에서 기다려요. ",["personName"]," 님이 여기서 로그인하면 보내요."],
  "page-outbox.nobodys": ["로그인한 사람이 없을 때 적은 기록 ",["entryCount",{"other":[["#"],"개"]},1],"가 누구의 것인지 정해 주기를 기다려요."],
  "page-outbox.see": [["entryCount",{"other":"보기"},1]],
  "page-outbox.refused": ["받지 않은 기록 ",["entryCount",{"other":[["#"],"개"]},1]],
};
