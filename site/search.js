// Searches the archive. Its words, and which recipes have them, come as scripts, so that it works from disk too.
var levelcup = (function () {
  "use strict";

  var DIGITS = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz-_";
  // An ingredient, a component, a tag, a title.
  var WEIGHTS = [1, 2, 3, 6];
  var MOST = 20;
  var base = document.currentScript.src.replace(/search\.js.*$/, "");
  var words, stop, parts, perFile, latest;
  var loaded = {};
  var waiting = {};

  function load(name, then) {
    if (name in loaded) {
      then(loaded[name]);
      return;
    }
    if (waiting[name]) {
      waiting[name].push(then);
      return;
    }
    waiting[name] = [then];
    var script = document.createElement("script");
    script.src = base + "search/" + name + ".js";
    document.head.appendChild(script);
  }

  function loadAll(names, then) {
    var left = names.length;
    if (!left) {
      then();
    }
    names.forEach(function (name) {
      load(name, function () {
        left -= 1;
        if (!left) {
          then();
        }
      });
    });
  }

  function arrived(name, value) {
    loaded[name] = value;
    (waiting[name] || []).forEach(function (then) {
      then(value);
    });
  }

  function plain(text) {
    var bare = text.normalize("NFD").replace(/[\u0300-\u036f'’]/g, "").toLowerCase();
    return bare.split(/[^\p{L}\p{N}]+/u).filter(function (word) {
      return word.length > 1 && stop.indexOf(word) < 0 && !/^\d+$/.test(word);
    });
  }

  // Letters to change, add, drop or swap with their neighbour; `most` + 1 where it is more than that.
  function distance(one, other, most) {
    if (Math.abs(one.length - other.length) > most) {
      return most + 1;
    }
    var rows = [[]];
    for (var j = 0; j <= other.length; j += 1) {
      rows[0][j] = j;
    }
    for (var i = 1; i <= one.length; i += 1) {
      rows[i] = [i];
      var least = i;
      for (j = 1; j <= other.length; j += 1) {
        var same = one[i - 1] === other[j - 1] ? 0 : 1;
        var cost = Math.min(rows[i - 1][j] + 1, rows[i][j - 1] + 1, rows[i - 1][j - 1] + same);
        if (i > 1 && j > 1 && one[i - 1] === other[j - 2] && one[i - 2] === other[j - 1]) {
          cost = Math.min(cost, rows[i - 2][j - 2] + 1);
        }
        rows[i][j] = cost;
        least = Math.min(least, cost);
      }
      if (least > most) {
        return most + 1;
      }
    }
    return rows[one.length][other.length];
  }

  // The words that one typed may mean, as index and likeness; a word misspelt only where none begins so.
  function meant(typed) {
    var found = [];
    words.forEach(function (word, at) {
      if (word.indexOf(typed) === 0) {
        found.push([at, word === typed ? 1 : 0.5 + typed.length / word.length / 3]);
      }
    });
    var most = typed.length < 4 ? 0 : typed.length < 8 ? 1 : 2;
    if (!found.length && most) {
      words.forEach(function (word, at) {
        var off = distance(typed, word, most);
        if (off > most) {
          off = distance(typed, word.slice(0, typed.length), most) + 0.5;
        }
        if (off <= most + 0.5) {
          found.push([at, 0.5 / off]);
        }
      });
    }
    return found.sort(function (a, b) { return b[1] - a[1]; }).slice(0, 12);
  }

  function partOf(at) {
    var part = parts.length - 1;
    while (parts[part] > at) {
      part -= 1;
    }
    return part;
  }

  // Adds what a word's recipes score to `scores`.
  function score(scores, at, likeness) {
    var part = partOf(at);
    var text = loaded["p" + part][at - parts[part]];
    var recipe = 0;
    for (var i = 0; i < text.length; i += 1) {
      var number = 0;
      for (var scale = 1; ; scale *= 32, i += 1) {
        var digit = DIGITS.indexOf(text[i]);
        number += (digit % 32) * scale;
        if (digit < 32) {
          break;
        }
      }
      recipe += Math.floor(number / 4);
      scores[recipe] = Math.max(scores[recipe] || 0, WEIGHTS[number % 4] * likeness);
    }
  }

  // Recipes that have every word, the best first and of equals the newest.
  function best(choices) {
    var total = null;
    choices.forEach(function (choice) {
      var scores = {};
      choice.forEach(function (one) {
        score(scores, one[0], one[1]);
      });
      Object.keys(total || {}).forEach(function (recipe) {
        if (recipe in scores) {
          scores[recipe] += total[recipe];
        }
      });
      Object.keys(scores).forEach(function (recipe) {
        if (total && !(recipe in total)) {
          delete scores[recipe];
        }
      });
      total = scores;
    });
    return Object.keys(total || {}).map(Number).sort(function (a, b) {
      return total[b] - total[a] || a - b;
    });
  }

  function show(found, asked) {
    var list = document.getElementById("found");
    var shown = found.slice(0, MOST);
    loadAll(shown.map(function (recipe) { return "t" + Math.floor(recipe / perFile); }), function () {
      if (asked !== latest) {
        return;
      }
      list.textContent = "";
      shown.forEach(function (recipe) {
        var title = loaded["t" + Math.floor(recipe / perFile)][recipe % perFile];
        var link = document.createElement("a");
        link.href = base + title[1] + "index.html";
        link.textContent = title[0];
        list.appendChild(document.createElement("li")).appendChild(link);
      });
      var answer = document.getElementById("answer");
      var says = answer.dataset;
      var count = found.length === 1 ? says.one : says.many.replace("{count}", found.length);
      if (found.length > MOST) {
        count = says.more.replace("{found}", count).replace("{most}", MOST);
      }
      answer.textContent = found.length ? count : says.none;
    });
  }

  function search(asked) {
    latest = asked;
    load("words", function () {
      var choices = plain(asked).map(meant);
      if (!choices.length) {
        document.getElementById("found").textContent = "";
        document.getElementById("answer").textContent = "";
        return;
      }
      var needed = {};
      choices.forEach(function (choice) {
        choice.forEach(function (one) { needed["p" + partOf(one[0])] = true; });
      });
      loadAll(Object.keys(needed), function () {
        if (asked === latest) {
          show(best(choices), asked);
        }
      });
    });
  }

  // Down and up go from the field through what was found; enter takes the first.
  function move(event, field) {
    var links = Array.prototype.slice.call(document.querySelectorAll("#found a"));
    var at = links.indexOf(document.activeElement);
    if (event.key === "/" && document.activeElement !== field) {
      field.focus();
    } else if (event.key === "ArrowDown" && links[at + 1]) {
      links[at + 1].focus();
    } else if (event.key === "ArrowUp" && at >= 0) {
      (links[at - 1] || field).focus();
    } else {
      return;
    }
    event.preventDefault();
  }

  // The script is deferred, so the page is there.
  var form = document.querySelector(".search");
  var field = document.getElementById("asked");
  field.value = new URLSearchParams(location.search).get("q") || "";
  field.addEventListener("input", function () {
    search(field.value);
  });
  form.addEventListener("submit", function (event) {
    event.preventDefault();
    var first = document.querySelector("#found a");
    if (first) {
      first.click();
    }
  });
  document.addEventListener("keydown", function (event) {
    move(event, field);
  });
  if (field.value) {
    search(field.value);
  }
  field.focus();

  return {
    words: function (data) {
      var before = "";
      stop = data.stop;
      parts = data.parts;
      perFile = data.titles;
      words = data.words.split(" ").map(function (coded) {
        before = before.slice(0, parseInt(coded[0], 36)) + coded.slice(1);
        return before;
      });
      arrived("words", true);
    },
    part: function (data) {
      arrived("p" + data[0], data[1]);
    },
    titles: function (data) {
      arrived("t" + data[0], data[1]);
    }
  };
})();
