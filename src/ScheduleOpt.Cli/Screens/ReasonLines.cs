using ScheduleOpt.Comparison.Tonight.Explanations;
using ScheduleOpt.Interchange.Answers;

namespace ScheduleOpt.Cli.Screens;

/// <summary>Why a car's schedule is what it is, what changes would cost, and what would cure its shortfalls, as sentences.</summary>
internal sealed class ReasonLines(CarAnswer car, LocalTimes times, string currency)
{
    private const int MostWindows = 2;

    // The last digit that a price, and an energy, is shown with. [currency; kWh]
    private const double LeastShown = 0.0001;
    private const double LeastShownKwh = 0.05;

    /// <summary>The sentences in order; none where nothing was worked out.</summary>
    public IEnumerable<string> All() => Help().Concat(Reasons()).Concat(Timers());

    private IEnumerable<string> Help()
    {
        foreach (var help in car.Help)
        {
            string?[] ways =
            [
                help.PlugInEarlierBy is { } by ? $"be plugged in {Figures.Hours(by.TotalHours)} earlier" : null,
                help is { BreakerA: { } breaker, CurrentA: { } current } ? $"charge with {Figures.Plain(Math.Round(current, 1))} A, on a circuit of {Figures.Plain(breaker)} A" : null,
                help.TargetStateOfCharge is { } target ? $"be content with {Figures.Number(100 * target)} %" : null,
                help.AwayKwh is { } away ? $"charge {Figures.Kwh(away)} on the way" : null,
            ];
            var any = ways.OfType<string>().ToArray();
            yield return any.Length > 0
                ? $"To leave at {times.Of(help.Departure)} with enough: {string.Join("; or ", any)}."
                : $"Nothing that was tried leaves the car with enough at {times.Of(help.Departure)}.";
        }
    }

    private IEnumerable<string> Reasons()
    {
        if (car.Explanation is not { } reasons)
        {
            yield break;
        }

        foreach (var window in reasons.WhyEachWindow.Take(MostWindows))
        {
            yield return $"From {times.Of(window.Start)}: {window.Sentence}";
        }

        foreach (var binding in reasons.Bindings)
        {
            yield return $"What decides for {times.Of(binding.Departure)}: {Lower(binding.Sentence)}";
        }

        var byThen = reasons.Bindings is [var earliest, ..] ? $"by {times.Of(earliest.Departure)}" : "by then";
        if (reasons.OneMoreKwh is { Cost: { } cost, Saving: { } saving })
        {
            yield return $"One kWh more {byThen} would cost {Cents(cost)}, one less save {Cents(saving)}.";
        }

        if (reasons.TenPercentMore is { } ten)
        {
            yield return $"Ten points more {byThen} would cost {Cents(ten.Bill)}{Stored(ten)}.";
        }

        if (reasons.AnHourEarlier is { } hour)
        {
            yield return $"Leaving an hour earlier then would cost {Cents(hour.Bill)}{Stored(hour)}.";
        }

        if (reasons.NextCircuit is { } circuit)
        {
            yield return $"A circuit of {Figures.Plain(circuit.BreakerA)} A would {(Vanishes(circuit.Extra.Bill) ? "save nothing" : circuit.Extra.Bill < 0 ? $"save {Cents(-circuit.Extra.Bill)}" : $"cost {Cents(circuit.Extra.Bill)} more")} in these days.";
        }

        if (reasons.NextBest is { } next)
        {
            yield return $"Without the first window's hours it would cost {More(next.Extra.Bill)}.";
        }
    }

    private IEnumerable<string> Timers()
    {
        if (car.Timers?.StartTime is { } start)
        {
            yield return $"On a plain timer: start at {Clock(start)}, stop at {Figures.State(start.StopAt)}; {Outcome(start)}.";
        }

        if (car.Timers?.FinishTime is { } finish)
        {
            yield return $"In a car that is told when to be done: {Clock(finish)}, {Figures.State(finish.StopAt)}; {Outcome(finish)}.";
        }

        if (car.Timers?.WhyNot is { } why)
        {
            yield return why;
        }
    }

    /// <summary>What following a timer comes to, beside the schedule.</summary>
    private string Outcome(TimerMoment timer)
    {
        var stored = Math.Abs(timer.ExtraKwh) < LeastShownKwh ? ""
            : $", with {Figures.Kwh(Math.Abs(timer.ExtraKwh))} {(timer.ExtraKwh > 0 ? "more" : "less")} in the battery";
        return $"that night it costs {More(timer.ExtraCost)}{stored}" + (timer.MissingKwh > 0 ? $": {Figures.Kwh(timer.MissingKwh)} too little for the trip" : "");
    }

    private static string Clock(TimerMoment moment) => NodaTime.Text.LocalTimePattern.CreateWithInvariantCulture("HH':'mm").Format(moment.At);

    private static string Stored(BillDifference difference) =>
        difference.StoredMoreKwh == 0 ? "" : $", with {Figures.Kwh(difference.StoredMoreKwh)} more in the battery at the end";

    // Beside the schedule: dearer, cheaper or the same.
    private string More(double amount) =>
        Vanishes(amount) ? "nothing more" : $"{Cents(Math.Abs(amount))} {(amount > 0 ? "more" : "less")}";

    // A kWh costs cents: two more digits than a bill.
    private string Cents(double amount) => Vanishes(amount) ? "nothing" : $"{Figures.Price((decimal)amount)} {currency}";

    private static bool Vanishes(double amount) => Math.Abs(amount) < LeastShown / 2;

    private static string Lower(string sentence) => char.ToLowerInvariant(sentence[0]) + sentence[1..];
}
