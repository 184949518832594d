// Two short notes when the cap is reached.
let audio;

/** Browsers let a page sound only after it was touched; called on the first press. */
export function wakeTone() {
  audio ??= 'AudioContext' in window ? new AudioContext() : null;
  audio?.resume();
}

export function tone() {
  if (!audio) return;
  for (const [at, frequency] of [[0, 880], [0.25, 660]]) {
    const oscillator = audio.createOscillator();
    const gain = audio.createGain();
    gain.gain.value = 0.2;
    oscillator.frequency.value = frequency;
    oscillator.connect(gain).connect(audio.destination);
    oscillator.start(audio.currentTime + at);
    oscillator.stop(audio.currentTime + at + 0.2);
  }
}
