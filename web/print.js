// Printing: the sheets of a print document become the only printed part of this page, one page a sheet.
'use strict';

const print_view = (() => {
  const root = document.getElementById('print');
  const style = new CSSStyleSheet();
  let printing = false;
  document.adoptedStyleSheets = [...document.adoptedStyleSheets, style];

  return {
    // Puts the markup of the sheets and their rules in place. They show on paper only. The rules come by themselves:
    // this page's policy lets no style in with markup.
    prepare(markup, rules) {
      style.replaceSync(`@media print {\n${rules}\n}`);
      const sheets = new DOMParser().parseFromString(markup, 'text/html');
      root.replaceChildren(...[...sheets.body.children].map((one) => document.importNode(one, true)));
    },
    // Opens the browser's print dialogue on what was prepared.
    show() {
      printing = true;
      window.print();
      printing = false;
    },
    printing: () => printing,
    // Whether a page is printed in its own size, whatever paper the maker has chosen: of the engines that were measured
    // (Chromium, Firefox, WebKit) Chromium alone does.
    keeps_pages: () => 'chrome' in window || 'userAgentData' in navigator,
  };
})();
