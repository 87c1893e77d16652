using NodaTime;

namespace ScheduleOpt.Scheduling;

/// <summary>The most current that the car may take at home over time: supply, hours without charging, limits by hours.</summary>
internal sealed class HomeCurrent
{
    private readonly ChargingCase question;
    private readonly double fullA;

    public HomeCurrent(ChargingCase question)
    {
        this.question = question;
        VoltsAcrossPhases = question.Supply?.VoltsAcrossPhases ?? 0;
        fullA = question.Supply?.ChargingCurrentA(question.Vehicle) ?? 0;
    }

    /// <summary>Volts that an ampere of each phase meets. [V]</summary>
    public double VoltsAcrossPhases { get; }

    /// <summary>The instants at which it changes.</summary>
    public IEnumerable<Instant> Changes()
    {
        foreach (var hours in question.NoCharging.Concat(question.CurrentLimits.Select(l => l.Hours)))
        {
            if (hours.HasStart)
            {
                yield return hours.Start;
            }

            if (hours.HasEnd)
            {
                yield return hours.End;
            }
        }
    }

    /// <summary>The most current from an instant to the next change; 0 where less than the car's minimum is left. [A, per phase]</summary>
    public double At(Instant instant)
    {
        var most = fullA;
        foreach (var hours in question.NoCharging)
        {
            if (hours.Contains(instant))
            {
                return 0;
            }
        }

        foreach (var limit in question.CurrentLimits)
        {
            if (limit.Hours.Contains(instant))
            {
                most = Math.Min(most, limit.MostA);
            }
        }

        return AtLeastMinimum(most);
    }

    /// <summary>What is left of a current for charging beside another load. [A, per phase]</summary>
    /// <param name="mostA">The current. [A, per phase]</param>
    /// <param name="besideKw">Power of the other load. [kW]</param>
    /// <param name="whole">Whether only whole amperes can be set.</param>
    public double Left(double mostA, double besideKw, bool whole)
    {
        var left = besideKw > 0 ? mostA - (besideKw * 1000 / VoltsAcrossPhases) : mostA;
        return AtLeastMinimum(whole ? Math.Floor(left + 1e-9) : left);
    }

    private double AtLeastMinimum(double current) => current < question.Vehicle.MinimumCurrentA ? 0 : current;
}
