using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using ScheduleOpt.SecondBiller.Tests.Generation;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.SecondBiller.Tests.Comparing;

internal enum Outcome
{
    Equal,
    BothRefused,
    Different,

    /// <summary>The document has faults.</summary>
    PlanRefused,

    /// <summary>The first biller refuses what is given beside the plan; the second does not.</summary>
    FirstRefused,

    /// <summary>The second biller refuses; the first does not.</summary>
    SecondRefused,
}

/// <summary>What came of billing a pair twice.</summary>
internal sealed record BilledTwice(Outcome Outcome, string Why)
{
    public static BilledTwice Of(Pair pair)
    {
        // Every tenth as YAML: what does not begin with a brace, of which JSON is the flow style.
        var text = (pair.Seed % 10 == 3 ? "# Drawn.\n" : "") + pair.Plan.ToJsonString();
        var reading = FirstBiller.Read(text);
        return reading.IsRead ? Of(reading.Value, PlanText.Read(text), pair.Question) : new(Outcome.PlanRefused, reading.Faults[0].ToString());
    }

    public static BilledTwice Of(RatePlan plan, JsonObject document, Question question)
    {
        Bill? first = null;
        Answer? second = null;
        string refusal = "";
        try
        {
            first = FirstBiller.Bill(plan, question);
        }
        catch (ArgumentException exception)
        {
            refusal = exception.Message;
        }

        try
        {
            second = NaiveBiller.Bill(document, question);
        }
        catch (RefusedException exception)
        {
            refusal += exception.Message;
        }

        return (first, second) switch
        {
            (null, null) => new(Outcome.BothRefused, refusal),
            (null, _) => new(Outcome.FirstRefused, refusal),
            (_, null) => new(Outcome.SecondRefused, refusal),
            _ => Difference(first, second) is { } difference ? new(Outcome.Different, difference) : new(Outcome.Equal, ""),
        };
    }

    /// <summary>The first figure that differs: periods, totals, parts; none where all are equal to the last digit. Where the bill as a whole is rounded its parts
    /// are not, and products of more than the 28 digits that decimal carries depend on their order: there 20 decimals must agree.</summary>
    public static string? Difference(Bill first, Answer second)
    {
        if (first.Periods.Count != second.Statements.Count)
        {
            return $"{first.Periods.Count} periods, second {second.Statements.Count}";
        }

        foreach (var (one, two) in first.Periods.Zip(second.Statements))
        {
            if (one.Start != two.Start || one.End != two.End)
            {
                return $"period {one.Start}..{one.End}, second {two.Start}..{two.End}";
            }

            foreach (var part in Enum.GetValues<BillPart>())
            {
                var name = char.ToLowerInvariant(part.ToString()[0]) + part.ToString()[1..];
                decimal a = one.Lines.Where(line => line.Part == part).Sum(line => line.Amount), b = two.Of(name);
                if (Math.Round(a, 20) != Math.Round(b, 20))
                {
                    return $"{name} of {one.Start}: {Plain(a)}, second {Plain(b)}\n{Lines(one, two, part, name)}";
                }
            }

            if (one.Total != two.Total)
            {
                return $"total of {one.Start}: {Plain(one.Total)}, second {Plain(two.Total)}";
            }
        }

        return null;
    }

    private static string Lines(BillStatement one, Statement two, BillPart part, string name)
    {
        var text = new StringBuilder();
        foreach (var line in one.Lines.Where(line => line.Part == part))
        {
            text.AppendLine(CultureInfo.InvariantCulture, $"    1: {line.Description} | {line.Quantity} {line.Unit} x {line.Price} = {line.Amount}");
        }

        foreach (var line in two.Lines.Where(line => line.Part == name))
        {
            text.AppendLine(CultureInfo.InvariantCulture, $"    2: {line.Name} = {line.Amount}");
        }

        return text.ToString();
    }

    private static string Plain(decimal value) => value.ToString(CultureInfo.InvariantCulture);
}
