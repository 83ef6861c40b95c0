// What a page looks like to somebody who reads it: each function takes nothing and returns plain data.
({
  // Every piece of text that is seen: its colour and the ones behind it, innermost first, and the words.
  texts() {
    const found = []
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT)
    while (walker.nextNode()) {
      const node = walker.currentNode, element = node.parentElement
      if (!node.data.trim() || element.closest("style, title")) continue
      const style = getComputedStyle(element)
      if (style.visibility !== "visible" || !element.getClientRects().length) continue
      const behind = []
      for (let one = element; one; one = one.parentElement) {
        const back = getComputedStyle(one)
        behind.push([back.backgroundColor, back.backgroundImage, back.opacity])
      }
      const colour = element.namespaceURI.endsWith("svg") ? style.fill : style.color
      found.push({ words: node.data.trim().slice(0, 60), colour, behind })
    }
    return found
  },
  // The words that stick out of the window or are cut off where nobody can move them into sight.
  lost() {
    const width = document.documentElement.clientWidth, found = []
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT)
    while (walker.nextNode()) {
      const node = walker.currentNode
      if (!node.data.trim() || node.parentElement.closest("style, title, .rule")) continue
      const range = document.createRange()
      range.selectNodeContents(node)
      for (const box of range.getClientRects()) {
        if (!box.width) continue
        let moved = false, cut = false
        for (let one = node.parentElement; one; one = one.parentElement) {
          const style = getComputedStyle(one)
          if (one.matches(".scroll") && one.tabIndex === 0 && style.overflowX === "auto") moved = true
          if (["hidden", "clip"].includes(style.overflowX)) {
            const outer = one.getBoundingClientRect()
            cut ||= box.right > outer.right + 1 || box.left < outer.left - 1 || box.bottom > outer.bottom + 1
          }
        }
        if (cut || (!moved && (box.right > width + 1 || box.left < -1))) found.push(node.data.trim().slice(0, 60))
      }
    }
    return found
  },
  // The texts of one line that are shown over one another.
  overlapping() {
    const boxes = [], found = []
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT)
    while (walker.nextNode()) {
      const node = walker.currentNode
      if (!node.data.trim() || node.parentElement.closest("style, title, .rule")) continue
      const range = document.createRange()
      range.selectNodeContents(node)
      for (const box of range.getClientRects()) if (box.width) boxes.push({ box, words: node.data.trim().slice(0, 40) })
    }
    boxes.sort((one, other) => one.box.top - other.box.top)
    boxes.forEach((one, at) => {
      for (let next = at + 1; next < boxes.length && boxes[next].box.top < one.box.bottom; next++) {
        const a = one.box, b = boxes[next].box
        const across = Math.min(a.right, b.right) - Math.max(a.left, b.left)
        const down = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top)
        if (across > 1 && down > 0.5 * Math.min(a.height, b.height)) found.push(`${one.words} | ${boxes[next].words}`)
      }
    })
    return found
  },
  // The element that has the focus: a name for it, and what shows that it has.
  focused() {
    const one = document.activeElement
    if (!one || one === document.body) return null
    const style = getComputedStyle(one)
    const outline = style.outlineStyle === "none" ? 0 : parseFloat(style.outlineWidth)
    const all = [...document.querySelectorAll("a[href], [tabindex='0']")]
    return { number: all.indexOf(one), outline, colour: style.outlineColor }
  },
  // How many things can be reached with the keyboard, in the order of the page.
  reachable() { return document.querySelectorAll("a[href], [tabindex='0']").length },
})
