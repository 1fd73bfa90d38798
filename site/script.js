// Shows the amounts of the chosen system and batch. All of them are on the page; this only says which are seen.
(function () {
  "use strict";

  var root = document.documentElement;
  var choices = { units: ["weights", "cups", "both"], batch: ["half", "one", "two", "three"] };
  var usual = { units: "both", batch: "one" };

  // Storage is refused in some private windows; the choice then lasts for the page.
  function remembered(name) {
    try {
      return localStorage.getItem("levelcup-" + name);
    } catch (refused) {
      return null;
    }
  }

  function remember(name, value) {
    try {
      localStorage.setItem("levelcup-" + name, value);
    } catch (refused) {
      return;
    }
  }

  function choose(name, value) {
    root.dataset[name] = choices[name].indexOf(value) < 0 ? usual[name] : value;
  }

  // Before the page is drawn, so that nothing moves afterwards.
  root.classList.add("scripted");
  Object.keys(choices).forEach(function (name) {
    choose(name, remembered(name));
  });

  document.addEventListener("DOMContentLoaded", function () {
    var form = document.querySelector(".switches");
    if (!form) {
      return;
    }
    Object.keys(choices).forEach(function (name) {
      form.elements[name].value = root.dataset[name];
    });
    form.addEventListener("change", function (event) {
      var name = event.target.name;
      if (choices[name]) {
        choose(name, event.target.value);
        remember(name, root.dataset[name]);
      }
    });
    form.addEventListener("submit", function (event) {
      event.preventDefault();
    });
  });
})();
