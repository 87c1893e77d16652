using ScheduleOpt.Comparison.Year;

namespace ScheduleOpt.Comparison.Uncertainty;

/// <summary>A year's case with one of the proposed inputs changed, for exact re-runs.</summary>
public static class VariedYear
{
    /// <summary>Applies the values of the proposed inputs, by name; those that are not there stay as they are.</summary>
    /// <remarks>Escalation does not touch a year: it belongs to the life-cycle cost. The winter penalty replaces the car's sensitivity, times the
    /// value over its middle of 1.</remarks>
    public static YearCase Of(YearCase question, IReadOnlyDictionary<string, double> values)
    {
        ArgumentNullException.ThrowIfNull(question);
        ArgumentNullException.ThrowIfNull(values);
        var consumption = question.Vehicle.Consumption;
        if (values.TryGetValue(ProposedInputs.Consumption.Name, out var factor))
        {
            consumption = consumption with { ReferenceKwhPerKm = consumption.ReferenceKwhPerKm * factor };
        }

        if (values.TryGetValue(ProposedInputs.WinterPenalty.Name, out var penalty))
        {
            consumption = consumption with { TemperatureSensitivity = consumption.TemperatureSensitivity * penalty };
        }

        var calendar = question.Calendar;
        if (values.TryGetValue(ProposedInputs.Distance.Name, out var distance) && distance != 1)
        {
            calendar = calendar.Scaled(distance);
        }

        if (values.TryGetValue(ProposedInputs.MissedNights.Name, out var missed) && missed > 0)
        {
            calendar = calendar.WithMissedNights(missed);
        }

        return question with { Vehicle = question.Vehicle with { Consumption = consumption }, Calendar = calendar };
    }
}
