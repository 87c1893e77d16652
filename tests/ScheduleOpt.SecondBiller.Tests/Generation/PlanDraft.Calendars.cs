using System.Text.Json.Nodes;
using NodaTime;

namespace ScheduleOpt.SecondBiller.Tests.Generation;

/// <summary>Seasons, day types, holidays, windows and events.</summary>
internal sealed partial class PlanDraft
{
    private static readonly string[] Week = ["monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"];

    private void AddCalendars()
    {
        calendars[""] = AddCalendar(plan, null);
        if (With("calendars", 0.25))
        {
            var second = Object(("name", "second"));
            calendars["second"] = AddCalendar(second, calendars[""]);
            if (With("calendar clock standard", 0.2))
            {
                second["clock"] = "standard";
            }

            plan["calendars"] = new JsonArray(second);
        }
    }

    /// <param name="node">Where the fields go.</param>
    /// <param name="own">The plan's own calendar, where this is a further one: what it leaves out is taken from there.</param>
    private CalendarDraft AddCalendar(JsonObject node, CalendarDraft? own)
    {
        var prefix = own is null ? "" : "s ";
        var seasons = own?.Seasons ?? [];
        if (With("seasons", own is null ? 0.5 : 0.25))
        {
            seasons = AddSeasons(node, prefix);
        }

        var dayTypes = own?.DayTypes ?? [];
        if (With("dayTypes", own is null ? 0.5 : 0.2))
        {
            dayTypes = AddDayTypes(node, prefix);
        }

        List<string> periods = [];
        if (own is not null || With("periods", 0.65))
        {
            for (var index = 0; index < draw.Between(own is null ? 2 : 1, 3); index++)
            {
                periods.Add($"{prefix}period {index}");
            }

            node["periods"] = Draw.Array(periods);
            AddWindows(node, seasons, dayTypes, periods);
        }

        return new(seasons, dayTypes, periods);
    }

    private List<string> AddSeasons(JsonObject node, string prefix)
    {
        var starts = new SortedSet<(int Month, int Day)>();
        for (var index = 0; index < draw.Between(2, 4); index++)
        {
            // A border inside the series as often as not.
            var date = draw.Chance(0.5) ? series.SomeDate(draw) : new LocalDate(2025, 1, 1).PlusDays(draw.Between(0, 364));
            starts.Add((date.Month, date.Day));
        }

        var list = starts.ToList();
        var names = new List<string> { $"{prefix}season 0", $"{prefix}season 1" };
        if (draw.Chance(0.4))
        {
            names.Add($"{prefix}season 2");
        }

        var ranges = names.Take(list.Count).ToDictionary(name => name, _ => new JsonArray());
        for (var index = 0; index < list.Count; index++)
        {
            // 2024 has a 29 February, which a season must hold.
            var first = new LocalDate(2024, list[index].Month, list[index].Day);
            var next = list[(index + 1) % list.Count];
            var last = new LocalDate(2024, next.Month, next.Day).PlusDays(-1);
            ranges.ElementAt(index % ranges.Count).Value.Add(Object(("from", MonthDay(first)), ("to", MonthDay(last))));
        }

        node["seasons"] = new JsonArray([.. ranges.Select(item => Object(("name", item.Key), ("ranges", item.Value)))]);
        return [.. ranges.Keys];
    }

    private List<string> AddDayTypes(JsonObject node, string prefix)
    {
        var parts = draw.Chance(0.7) ? [Week[..5], Week[5..]] : draw.Partition(Week);
        var names = parts.Select((_, index) => $"{prefix}day {index}").ToList();
        var list = new JsonArray([.. parts.Select((days, index) => Object(("name", names[index]), ("days", Draw.Array(days))))]);
        if (With("day type of holidays alone", 0.2))
        {
            names.Add($"{prefix}holiday");
            list.Add(Object(("name", $"{prefix}holiday"), ("days", new JsonArray())));
        }

        node["dayTypes"] = list;
        var holidays = new JsonArray();
        if (With("holidays", 0.7))
        {
            for (var index = 0; index < draw.Between(1, 5); index++)
            {
                holidays.Add(Holiday($"Holiday {index}", draw.Of(names)));
            }
        }

        node["holidays"] = holidays;
        return names;
    }

    private JsonObject Holiday(string name, string dayType)
    {
        var date = series.SomeDate(draw);
        var kind = draw.Between(0, 6);
        if (kind >= 5)
        {
            // On a Sunday or Saturday of the series, if it has one.
            date = Enumerable.Range(-1, series.Days + 1).Select(series.First.PlusDays).FirstOrDefault(day => day.DayOfWeek == (kind == 5 ? IsoDayOfWeek.Sunday : IsoDayOfWeek.Saturday), date);
        }

        var holiday = Object(("name", name), ("dayType", dayType));
        switch (kind)
        {
            case 0:
                holiday["rule"] = "nthWeekday";
                holiday["nth"] = (date.Day - 1) / 7 + 1;
                holiday["weekday"] = Week[(int)date.DayOfWeek - 1];
                holiday["month"] = date.Month;
                if (draw.Chance(0.4))
                {
                    holiday["offsetDays"] = draw.Between(-3, 3);
                }

                break;
            case 1:
                var last = date.PlusDays(draw.Between(0, 6));
                holiday["rule"] = "weekdayOnOrBefore";
                holiday["weekday"] = Week[(int)date.DayOfWeek - 1];
                holiday["date"] = last is { Month: 2, Day: 29 } ? "02-28" : MonthDay(last);
                break;
            case 2:
                holiday["rule"] = "easter";
                holiday["offsetDays"] = draw.Of(-2, 0, 1, 39, 50, -47);
                break;
            case 3:
                holiday["rule"] = "dates";
                holiday["dates"] = Draw.Array([Text(date), Text(date.PlusDays(draw.Between(2, 400)))]);
                break;
            default:
                holiday["rule"] = "fixedDate";
                holiday["date"] = date is { Month: 2, Day: 29 } ? "02-28" : MonthDay(date);
                break;
        }

        features.Add($"holiday {holiday["rule"]}");
        if (With("saturdayMovesTo", 0.5))
        {
            holiday["saturdayMovesTo"] = draw.Of("none", "friday", "monday", "nextFreeWeekday");
        }

        if (With("sundayMovesTo", 0.5))
        {
            holiday["sundayMovesTo"] = draw.Of("none", "monday", "nextFreeWeekday");
        }

        return holiday;
    }

    private void AddWindows(JsonObject node, IReadOnlyList<string> seasons, IReadOnlyList<string> dayTypes, List<string> periods)
    {
        var windows = new JsonArray();
        if (periods.Count > 1 && With("no defaultPeriod", 0.3))
        {
            // Cuts of the day; the last window runs over midnight, or the day is cut at midnight for each day type by itself.
            var groups = dayTypes.Count > 0 && draw.Chance(0.5) ? draw.Partition(dayTypes) : [[]];
            foreach (var group in groups)
            {
                var cuts = new SortedSet<int> { draw.Between(0, 47) * 30, draw.Between(0, 1439), draw.Between(1, 23) * 60 };
                if (groups.Count > 1)
                {
                    cuts.Add(0);
                }

                var list = cuts.ToList();
                for (var index = 0; index < list.Count; index++)
                {
                    var to = index + 1 < list.Count ? list[index + 1] : list[0] == 0 ? 1440 : list[0];
                    var window = Object(("period", index < periods.Count ? periods[index] : draw.Of(periods)), ("from", Clock(list[index])), ("to", Clock(to)));
                    if (group.Length > 0)
                    {
                        window["dayTypes"] = Draw.Array(group);
                    }

                    windows.Add(window);
                }
            }
        }
        else
        {
            node["defaultPeriod"] = periods[0];
            for (var index = 0; index < draw.Between(1, 4); index++)
            {
                int from = draw.Of(0, 30, 23 * 60, 22 * 60, draw.Between(0, 1439), draw.Between(0, 23) * 60), to = draw.Of(1440, 60, 120, 150, draw.Between(1, 1439), draw.Between(1, 23) * 60);
                if (from == to || (to == 1440 && from == 0))
                {
                    to = from == 60 ? 61 : 60;
                }

                if (to < from)
                {
                    features.Add("window over midnight");
                }

                var window = Object(("period", index < periods.Count - 1 ? periods[index + 1] : draw.Of(periods)), ("from", Clock(from)), ("to", Clock(to)));
                if (seasons.Count > 0 && With("windows by season", 0.4))
                {
                    window["seasons"] = Draw.Array(draw.Some(seasons));
                }

                if (dayTypes.Count > 0 && With("windows by day type", 0.5))
                {
                    window["dayTypes"] = Draw.Array(draw.Some(dayTypes));
                }

                Condition(window);
                windows.Add(window);
            }
        }

        node["windows"] = windows;
    }

    private void AddEvents()
    {
        if (!With("events", 0.25))
        {
            return;
        }

        var list = new JsonArray();
        for (var index = 0; index < draw.Between(1, 2); index++)
        {
            var definition = Object(("name", $"event {index}"));
            var calendar = "";
            if (calendars.Count > 1 && draw.Chance(0.4))
            {
                definition["calendar"] = calendar = "second";
            }

            if (calendars[calendar].Periods.Count > 0 && With("event period", 0.7))
            {
                definition["period"] = draw.Of(calendars[calendar].Periods);
            }

            var past = new JsonArray();
            for (var day = draw.Between(0, 3); day < series.Days; day += draw.Between(1, 5))
            {
                var minute = draw.Of(60, 120, 150, 14 * 60, 17 * 60 + 30, 22 * 60, draw.Between(0, 1380));
                var from = series.First.PlusDays(day).AtMidnight().PlusMinutes(minute);
                var to = from.PlusMinutes(draw.Of(30, 60, 120, 240));
                decimal? baseline = draw.Chance(0.3) ? draw.Number(0, 20, 3) : null;
                decimal? adjustment = draw.Chance(0.2) ? draw.Number(-2, 2, 2) : null;
                if (draw.Chance(0.5))
                {
                    past.Add(Object(
                        ("from", Minutes(from)), ("to", Minutes(to)),
                        ("baselineKwh", baseline is { } kwh ? JsonValue.Create(kwh) : null), ("baselineAdjustmentKwh", adjustment is { } more ? JsonValue.Create(more) : null)));
                    features.Add("past events");
                }
                else
                {
                    given.Add(new($"event {index}", from, to, baseline, adjustment ?? 0));
                    features.Add("given events");
                }
            }

            if (past.Count > 0)
            {
                definition["past"] = past;
            }

            list.Add(definition);
        }

        plan["events"] = list;
    }

    private static string Minutes(LocalDateTime time) => NodaTime.Text.LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm").Format(time);
}
