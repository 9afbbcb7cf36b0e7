(self.maulstickTexts ??= []).push(...[
{% for entry in entries -%}
{"id": {{ entry.href | json }}, "is": {{ entry.kind | json }}, "kind": {% if entry.product %}{{ say(key="kind." ~ entry.product) | json }}{% else %}{{ say(key="search-kind." ~ entry.kind) | json }}{% endif %},{% if entry.photo %} "photo": {{ entry.photo | json }},{% endif %}{% if entry.of %} "of": {{ entry.of | json }},{% endif %}{% if entry.ways %} "ways": {{ entry.ways | json }},{% endif %}{% if entry.colour %} "colour": {{ entry.colour | json }},{% endif %} "title": {% if entry.kind == "stage" %}{{ say(key="stage." ~ entry.stage) | json }}{% else %}{{ entry.title | json }}{% endif %}, "place": {{ entry.place | json }}, "text": {% if entry.kind == "stage" %}{{ say(key="stage-about." ~ entry.stage) | json }}{% else %}{{ entry.text | json }}{% endif %}{% if entry.first %}, "first": {{ entry.first | json }}{% endif %}{% if entry.kind == "step" %}, "stage": {{ say(key="stage." ~ entry.stage) | json }}{% endif %}},
{% endfor -%}
]);
self.maulstickClosing = {{ closing | json }};
