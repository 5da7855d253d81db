// Ticks are remembered on this device for this plan; without a place to remember them they still work.
(function () {
  var key = 'yardslip ' + document.body.dataset.plan;
  var boxes = Array.prototype.slice.call(document.querySelectorAll('input[type=checkbox]'));
  var done = {};
  try { done = JSON.parse(localStorage.getItem(key)) || {}; } catch (error) { done = {}; }
  function mark(box) { box.closest('tr').classList.toggle('done', box.checked); }
  boxes.forEach(function (box) {
    if (done[box.id]) { box.checked = true; }
    mark(box);
    box.addEventListener('change', function () {
      if (box.checked) { done[box.id] = 1; } else { delete done[box.id]; }
      mark(box);
      try { localStorage.setItem(key, JSON.stringify(done)); } catch (error) { /* nothing to remember with */ }
    });
  });
})();
