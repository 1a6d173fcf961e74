/**
 * Hands what the microphone hears to the page, block by block, each with the audio time of its first sample. It runs on
 * the audio thread, as the file it is: worklets are not bundled.
 */
class MicrophoneBlocks extends AudioWorkletProcessor {
  process([input]) {
    const samples = input[0];
    if (samples) this.port.postMessage({ time: currentTime, samples: samples.slice() });
    return true;
  }
}

registerProcessor("microphone-blocks", MicrophoneBlocks);
