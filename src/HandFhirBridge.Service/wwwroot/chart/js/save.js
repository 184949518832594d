// Files made in the browser; nothing is sent anywhere.
import { el } from '../../table/js/dom.js';

const picturePixels = 3;

export function saveBlob(name, blob) {
  const address = URL.createObjectURL(blob);
  const link = el('a', { href: address, download: name });
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(address), 10000);
}

export const saveText = (name, type, text) => saveBlob(name, new Blob([text], { type }));

/** The picture as PNG, three pixels to one of the drawing. */
export async function savePicture(drawn, name) {
  const copy = drawn.cloneNode(true);
  const { width, height } = drawn.viewBox.baseVal;
  copy.setAttribute('width', width);
  copy.setAttribute('height', height);
  const address = URL.createObjectURL(new Blob([new XMLSerializer().serializeToString(copy)], { type: 'image/svg+xml' }));
  const image = new Image();
  image.src = address;
  await image.decode();
  const canvas = el('canvas', { width: width * picturePixels, height: height * picturePixels });
  canvas.getContext('2d').drawImage(image, 0, 0, canvas.width, canvas.height);
  URL.revokeObjectURL(address);
  canvas.toBlob((blob) => saveBlob(name, blob), 'image/png');
}
