// Screenshots whose pixels are read in the page itself.

// A screenshot as base64. pixels_of() of it, an ImageData, can be asked for inside the page from now on.
export async function shot(page, options = { scale: 'css' }) {
  await page.evaluate(() => {
    window.pixels_of ||= async (png) => {
      const image = new Image();
      image.src = `data:image/png;base64,${png}`;
      await image.decode();
      const canvas = Object.assign(document.createElement('canvas'), { width: image.width, height: image.height });
      const pen = canvas.getContext('2d');
      pen.drawImage(image, 0, 0);
      return pen.getImageData(0, 0, image.width, image.height);
    };
  });
  return (await page.screenshot(options)).toString('base64');
}
