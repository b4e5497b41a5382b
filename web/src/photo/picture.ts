// A picture from a camera or a file, made fit to be sent: upright, at most 4096 px, in a format the shop takes.

/** Longest side that is sent; a camera's more would be noise, and a report prints no finer. */
export const longestSidePx = 4096;
const taken = new Set(["image/jpeg", "image/png", "image/webp"]);
const jpegQuality = 0.9;

export interface Size {
  width: number;
  height: number;
}

/** The size within `longest`, in the same proportion; unchanged when it fits. */
export function fitWithin(size: Size, longest: number): Size {
  const most = Math.max(size.width, size.height);
  if (most <= longest) return size;
  const scale = longest / most;
  return { width: Math.max(1, Math.round(size.width * scale)), height: Math.max(1, Math.round(size.height * scale)) };
}

/** True when the bytes go as they are: nothing is lost by writing them anew. */
export function goesAsItIs(type: string, size: Size): boolean {
  return taken.has(type) && Math.max(size.width, size.height) <= longestSidePx;
}

export type Prepared = { blob: Blob; size: Size } | { refused: string };

/** Turns the camera's orientation into pixels where it writes them anew; a picture that goes as it is keeps its own
 *  note of orientation, which browsers and the report obey. */
export async function prepare(file: Blob, name = "this file"): Promise<Prepared> {
  let picture: ImageBitmap;
  try {
    picture = await createImageBitmap(file, { imageOrientation: "from-image" });
  } catch {
    return { refused: `"${name}" is no picture that this browser can open. JPEG, PNG or WebP is expected.` };
  }
  try {
    const size = { width: picture.width, height: picture.height };
    if (goesAsItIs(file.type, size)) return { blob: file, size };
    return await drawnAnew(picture, fitWithin(size, longestSidePx), name);
  } finally {
    picture.close();
  }
}

async function drawnAnew(picture: ImageBitmap, size: Size, name: string): Promise<Prepared> {
  const canvas = document.createElement("canvas");
  canvas.width = size.width;
  canvas.height = size.height;
  const pen = canvas.getContext("2d");
  if (!pen) return { refused: `"${name}" is too large for this device's memory. Take it smaller.` };
  pen.imageSmoothingQuality = "high";
  pen.drawImage(picture, 0, 0, size.width, size.height);
  const blob = await new Promise<Blob | null>((done) => canvas.toBlob(done, "image/jpeg", jpegQuality));
  return blob ? { blob, size } : { refused: `"${name}" is too large for this device's memory. Take it smaller.` };
}
