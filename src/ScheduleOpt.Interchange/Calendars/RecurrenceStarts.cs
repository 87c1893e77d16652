using Ical.Net.DataTypes;
using Ical.Net.Evaluation;
using NodaTime;

namespace ScheduleOpt.Interchange.Calendars;

/// <summary>The local starts of a recurrence rule. The one place that calls the library's expansion.</summary>
/// <remarks>
/// Only dates are handed to the library: every instance starts at the time of day of the first, and this service resolves local times
/// itself, so that an instance in the gap of a clock change is kept.
/// </remarks>
internal sealed class RecurrenceStarts(string pointer, List<Fault> faults)
{
    private int taken;

    /// <summary>The starts from a date to a date, both included, in order; stops with a fault at the limit of instances.</summary>
    /// <param name="rule">The rule.</param>
    /// <param name="first">The first instance, as the event states it.</param>
    /// <param name="from">The first date of interest.</param>
    /// <param name="until">The last date of interest.</param>
    /// <param name="line">The line of the rule, for faults.</param>
    internal List<LocalDateTime> Between(RecurrenceRule rule, EventTime first, LocalDate from, LocalDate until, int? line)
    {
        var starts = new List<LocalDateTime>();
        foreach (var date in Dates(rule, first.Local.Date, from, line))
        {
            var start = date.At(first.Local.TimeOfDay);
            if (date > until || !rule.Reaches(start, first.Zone))
            {
                break;
            }

            if (++taken > CalendarLimits.Instances)
            {
                faults.Add(new Fault(
                    pointer,
                    $"Recurring trips have at most {CalendarLimits.Instances} instances, those that a COUNT steps over included.",
                    "",
                    line));
                break;
            }

            if (date >= from)
            {
                starts.Add(start);
            }
        }

        return starts;
    }

    private IEnumerable<LocalDate> Dates(RecurrenceRule rule, LocalDate first, LocalDate from, int? line)
    {
        var pattern = rule.Count is { } count ? $"{rule.Pattern};COUNT={count}" : rule.Pattern;
        var options = new EvaluationOptions { MaxUnmatchedIncrementsLimit = rule.StepsInFortyYears };
        using var periods = new RecurrencePatternEvaluator(new Ical.Net.DataTypes.RecurrenceRule(pattern))
            .Evaluate(Calendar(first), Calendar(from > first ? from : first), options)
            .GetEnumerator();
        while (true)
        {
            try
            {
                if (!periods.MoveNext())
                {
                    yield break;
                }
            }
            catch (EvaluationOutOfRangeException)
            {
                // The next instance lies beyond the year 9999.
                yield break;
            }
            catch (EvaluationLimitExceededException)
            {
                var rest = Shortened.Text(rule.Pattern);
                faults.Add(new Fault(pointer, "A recurrence rule has an instance at least every 40 years.", rest, line));
                yield break;
            }

            var date = periods.Current.StartTime;
            yield return new LocalDate(date.Year, date.Month, date.Day);
        }
    }

    private static CalDateTime Calendar(LocalDate date) => new(date.Year, date.Month, date.Day);
}
