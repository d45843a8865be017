/** Reads a QR code with the camera, on the phone itself: no picture leaves it. */
import jsQR from "jsqr";

const GREATEST_SIDE_PX = 640;

/**
 * Starts the camera in `video` and hands every text found to `found` until that answers true.
 * @param {HTMLVideoElement} video
 * @param {(text: string) => boolean} found
 * @returns {Promise<() => void>} stops it
 */
export async function scan(video, found) {
  if (!navigator.mediaDevices?.getUserMedia) throw new Error("this browser gives none to this address.");
  const stream = await navigator.mediaDevices.getUserMedia({ video: { facingMode: "environment" }, audio: false });
  let running = true;
  const stop = () => {
    running = false;
    for (const track of stream.getTracks()) track.stop();
    video.srcObject = null;
  };
  const canvas = document.createElement("canvas");
  const pen = canvas.getContext("2d", { willReadFrequently: true });
  const look = () => {
    if (!running) return;
    if (video.readyState >= HTMLMediaElement.HAVE_CURRENT_DATA && video.videoWidth) {
      const scale = Math.min(1, GREATEST_SIDE_PX / Math.max(video.videoWidth, video.videoHeight));
      canvas.width = Math.round(video.videoWidth * scale);
      canvas.height = Math.round(video.videoHeight * scale);
      pen.drawImage(video, 0, 0, canvas.width, canvas.height);
      const { data, width, height } = pen.getImageData(0, 0, canvas.width, canvas.height);
      const code = jsQR(data, width, height);
      if (code?.data && found(code.data)) return stop();
    }
    requestAnimationFrame(look);
  };
  try {
    video.srcObject = stream;
    await video.play();
  } catch (error) {
    stop();
    throw error;
  }
  requestAnimationFrame(look);
  return stop;
}
