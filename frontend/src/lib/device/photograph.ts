// Makes a photograph small enough to send: a JPEG of at most 1,600 pixels.
const LONGEST_SIDE = 1600

/** Returns the size with the same sides, at most `longest` pixels long; a smaller one stays as it is. */
export function fitted(
  width: number,
  height: number,
  longest = LONGEST_SIDE,
): { width: number; height: number } {
  const longer = Math.max(width, height)
  if (longer <= longest) return { width, height }
  const scaled = (side: number) => Math.max(1, Math.round((side * longest) / longer))
  return { width: scaled(width), height: scaled(height) }
}

/** Returns the photograph upright as a small JPEG; null for a file that the browser cannot read as a picture. */
export async function smallJpeg(file: Blob): Promise<Blob | null> {
  try {
    const bitmap = await createImageBitmap(file, { imageOrientation: 'from-image' })
    const canvas = document.createElement('canvas')
    Object.assign(canvas, fitted(bitmap.width, bitmap.height))
    canvas.getContext('2d')?.drawImage(bitmap, 0, 0, canvas.width, canvas.height)
    bitmap.close()
    return await new Promise((done) => canvas.toBlob(done, 'image/jpeg', 0.85))
  } catch {
    return null
  }
}
