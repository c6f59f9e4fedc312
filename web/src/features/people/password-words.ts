import { passwordTexts } from '../../../../shared/messages/made/en/password.ts';
import { rendererOf } from '../../../../shared/messages/renderer.ts';

export const renderPassword = rendererOf(passwordTexts);
