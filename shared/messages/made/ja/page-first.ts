// Made from ../../ja/page-first.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageFirstParams } from '../params/page-first.ts';

export const pageFirstTexts: PageTexts<PageFirstParams> = {
  "page-first.server": "サーバー",
  "page-first.port": "ポート",
  "page-first.tls": "TLS",
  "page-first.tls.on": [["isTls",{"true":"使う","other":"使わない"},0]],
  "page-first.only-here": ["ブローカーはこの機械にしか応答しないので、ほかの機器からは何も届きません。",["<","link","センサーとスマートフォンをつなげる"]],
  "page-first.key.do": "これのキーを作る",
  "page-first.key.why": "ほかの場所の機器にはキーが要ります。ユーザー名とパスワードです。",
  "page-first.key.ask": "ほかの場所の機器にはキーが要ります。所有者に頼んでください。",
  "page-first.waiting": "最初のメッセージを待っています。ブローカーにはまだ何も届いていません。",
  "page-first.came": ["最初のメッセージが",["cameAtMs"],"に、",["<","mono",[["topicText"]]],"に届きました。"],
  "page-first.unread": [["<","mono",[["topicText"]]],"のメッセージが使えませんでした（",["lastAgoMs"],"）。",["whyText"]],
  "page-first.unused": ["Branhearthが自分では分からない",["<","mono",[["topicText"]]],"にメッセージが届いています。",["<","link","どの値か指定する"]],
  "page-first.turned-away": [["<","b",[["whatText"]]],"、",["addressText"],"から、",["lastAgoMs"],"。",["meaningText"]],
  "page-first.outside": "誰が入れるかは、あなた自身のブローカーが決めます。何を断ったかはブローカーで分かります。",
};
