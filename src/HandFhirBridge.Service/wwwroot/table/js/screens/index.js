import { homeScreen, takenScreen } from './home.js';
import { clearScreen } from './clear.js';
import { deviceScreen } from './device.js';
import { patientScreen } from './patient.js';
import { performerScreen } from './performer.js';
import { dominanceScreen } from './dominance.js';
import { inventoryScreen } from './inventory.js';
import { precautionsScreen } from './precautions.js';
import { setupScreen } from './setup.js';
import { trialScreen } from './trial.js';
import { reviewScreen } from './review.js';
import { correctScreen } from './correct.js';
import { sentScreen } from './sent.js';
import { paperScreen } from './paper.js';
import { cardsScreen, sheetScreen } from './print.js';

export const screens = { home: homeScreen, taken: takenScreen, device: deviceScreen, clear: clearScreen, sheet: sheetScreen, cards: cardsScreen };

export const sessionScreens = {
  patient: patientScreen, performer: performerScreen, dominance: dominanceScreen, inventory: inventoryScreen, precautions: precautionsScreen,
  setup: setupScreen, trials: trialScreen, review: reviewScreen, correct: correctScreen, sent: sentScreen, paper: paperScreen,
};
