using NodaTime;
using ScheduleOpt.SecondBiller.Tests.Comparing;
using ScheduleOpt.SecondBiller.Tests.Generation;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.SecondBiller.Tests;

/// <summary>A series split at a border of billing periods costs the same, in both billers, where the state is handed on; and where it isn't, it doesn't.</summary>
public class SplitTests
{
    [Fact]
    public void Bill_SplitAtPeriodBordersWithStateHandedOn_IsTheSame()
    {
        var split = 0;
        foreach (var pair in Enumerable.Range(50_000, 400).Select(Pair.Make))
        {
            var reading = FirstBiller.Read(pair.Plan.ToJsonString());
            if (!reading.IsRead || Whole(reading.Value, pair.Question) is not { Periods.Count: > 1 } whole)
            {
                continue;
            }

            foreach (var border in whole.Periods.Skip(1).Select(period => period.Start)
                .Where(border => Cut(pair.Question, border) is not null && !IsInEvent(pair, border)))
            {
                var (before, after) = Cut(pair.Question, border)!.Value;
                var first = FirstBiller.Bill(reading.Value, before);
                var second = FirstBiller.Bill(reading.Value, after, first.State);
                Assert.True(Totals(whole).SequenceEqual([.. Totals(first), .. Totals(second)]), $"pair {pair.Seed} at {border}: {string.Join(' ', Totals(whole))}, split {string.Join(' ', Totals(first).Concat(Totals(second)))}");

                var naive = NaiveBiller.Bill(pair.Plan, pair.Question);
                var one = NaiveBiller.Bill(pair.Plan, before);
                var two = NaiveBiller.Bill(pair.Plan, after with { Carried = one.Carried });
                Assert.True(
                    naive.Statements.Select(statement => statement.Total).SequenceEqual(one.Statements.Concat(two.Statements).Select(statement => statement.Total)),
                    $"pair {pair.Seed} at {border}, second biller");
                split++;
            }
        }

        Assert.True(split > 60, $"Only {split} splits.");
    }

    /// <summary>One plan for each thing that is carried; the second billing period depends on the first through it alone.</summary>
    [Theory]
    [InlineData("ratchet", """
        "demandCharges": [{ "name": "Demand", "averagingMinutes": 60, "pricePerKw": 10, "ratchet": { "percent": 80, "months": 11 } }]
        """)]
    [InlineData("bank of kWh", """
        "export": { "kind": "netMetering" }
        """)]
    [InlineData("bank of credit", """
        "export": { "kind": "netBilling", "creditUse": "bankThisBill", "prices": [{ "name": "Export", "pricePerKwh": 0.5 }] }
        """)]
    [InlineData("use so far", """
        "events": [{ "name": "Peak", "past": [{ "from": "2026-02-01T17:00", "to": "2026-02-01T19:00" }] }],
        "rebates": [{ "name": "Rebate", "event": "Peak", "pricePerKwh": 1, "baseline": { "days": 3 } }]
        """)]
    public void Bill_SplitWithoutState_Differs(string carried, string fields)
    {
        var text = $$"""
            {
              "name": "Split", "utility": "Nobody (invented)", "source": "Invented.", "currency": "USD", "timeZone": "America/Chicago",
              "effective": { "from": "2020-01-01" }, "metering": "wholeHouse", "customerCharges": [],
              "energyCharges": [{ "name": "Energy", "pricePerKwh": 0.2 }],
              {{fields}},
              "rounding": { "each": "line", "mode": "halfUp" }, "proration": { "month": "daysInMonth" }
            }
            """;
        var border = Instant.FromUtc(2026, 2, 1, 6, 0);
        var plan = FirstBiller.Read(text).Value;
        // January: much import and more export; February: 1 kWh an hour, and less during the event.
        var question = new Question
        {
            Start = border - Duration.FromDays(10),
            Interval = Duration.FromHours(1),
            Import = [.. Enumerable.Range(0, 480).Select(hour => hour < 240 ? hour % 24 == 18 ? 9_000_000L : 2_000_000 : 1_000_000)],
            Export = [.. Enumerable.Range(0, 480).Select(hour => hour < 240 ? 20_000_000L : 0)],
        };
        var (before, after) = Cut(question, border)!.Value;
        var whole = FirstBiller.Bill(plan, question).Periods[1].Total;
        var state = FirstBiller.Bill(plan, before).State;

        Assert.Equal(whole, FirstBiller.Bill(plan, after, state).Total);
        Assert.True(whole != FirstBiller.Bill(plan, after).Total, $"The {carried} should matter.");

        var document = PlanText.Read(text);
        var handed = NaiveBiller.Bill(document, before).Carried;
        Assert.Equal(whole, NaiveBiller.Bill(document, after with { Carried = handed }).Total);
        Assert.NotEqual(whole, NaiveBiller.Bill(document, after).Total);
    }

    private static Bill? Whole(RatePlan plan, Question question)
    {
        try
        {
            return FirstBiller.Bill(plan, question);
        }
        catch (ArgumentException)
        {
            // No price for some hour: there is no bill to split.
            return null;
        }
    }

    /// <summary>The question up to a border and from it on; none where the border lies inside a metering interval, or inside a stretch that is netted as one.</summary>
    private static (Question Before, Question After)? Cut(Question question, Instant border)
    {
        var count = (int)((border - question.Start) / question.Interval);
        if (question.Start + question.Interval * count != border || border.ToUnixTimeSeconds() % 3600 != 0)
        {
            return null;
        }

        return (
            question with { Import = question.Import[..count], Export = question.Export?[..count] },
            question with { Start = border, Import = question.Import[count..], Export = question.Export?[count..], Carried = new() });
    }

    /// <summary>Whether an event runs over the border: its rebate belongs to the billing period in which it starts, and needs the use of the next.</summary>
    private static bool IsInEvent(Pair pair, Instant border)
    {
        var local = border.InZone(DateTimeZoneProviders.Tzdb[pair.Plan["timeZone"]!.GetValue<string>()]).LocalDateTime;
        var past = (pair.Plan["events"]?.AsArray() ?? []).SelectMany(item => item!["past"]?.AsArray() ?? []).Select(item => (From: Time(item!["from"]!), To: Time(item["to"]!)));
        return past.Concat(pair.Question.Events.Select(item => (item.From, item.To))).Any(called => called.From < local && local < called.To);
    }

    private static LocalDateTime Time(System.Text.Json.Nodes.JsonNode text) =>
        NodaTime.Text.LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm").Parse(text.GetValue<string>()).Value;

    private static IEnumerable<decimal> Totals(Bill bill) => bill.Periods.Select(period => period.Total);
}
