namespace ScheduleOpt.Core;

/// <summary>An amount of electrical energy. [kWh]</summary>
/// <remarks>May be negative where it is a difference. <c>default</c> is zero. Whether it is counted at the meter (wall) or in the battery
/// is said by the member that holds it, never by this type.</remarks>
public readonly record struct Energy : IComparable<Energy>
{
    private Energy(double kilowattHours) => KilowattHours = kilowattHours;

    /// <summary>No energy. [kWh]</summary>
    public static Energy Zero => default;

    /// <summary>The amount. [kWh]</summary>
    public double KilowattHours { get; }

    /// <summary>Makes an amount of energy from kilowatt-hours.</summary>
    /// <param name="kilowattHours">Any finite number. [kWh]</param>
    /// <exception cref="ArgumentOutOfRangeException">The number is not finite.</exception>
    public static Energy FromKilowattHours(double kilowattHours) =>
        double.IsFinite(kilowattHours)
            ? new(kilowattHours)
            : throw new ArgumentOutOfRangeException(nameof(kilowattHours), kilowattHours, "Energy must be a finite number of kWh.");

    /// <summary>Adds two amounts. [kWh]</summary>
    public static Energy operator +(Energy left, Energy right) => new(left.KilowattHours + right.KilowattHours);

    /// <summary>Takes one amount from another. [kWh]</summary>
    public static Energy operator -(Energy left, Energy right) => new(left.KilowattHours - right.KilowattHours);

    /// <summary>Scales an amount by a plain number. [kWh]</summary>
    public static Energy operator *(Energy energy, double factor) => FromKilowattHours(energy.KilowattHours * factor);

    /// <summary>Whether the left amount is smaller. [kWh]</summary>
    public static bool operator <(Energy left, Energy right) => left.KilowattHours < right.KilowattHours;

    /// <summary>Whether the left amount is larger. [kWh]</summary>
    public static bool operator >(Energy left, Energy right) => left.KilowattHours > right.KilowattHours;

    /// <summary>Whether the left amount is smaller or equal. [kWh]</summary>
    public static bool operator <=(Energy left, Energy right) => left.KilowattHours <= right.KilowattHours;

    /// <summary>Whether the left amount is larger or equal. [kWh]</summary>
    public static bool operator >=(Energy left, Energy right) => left.KilowattHours >= right.KilowattHours;

    /// <inheritdoc/>
    public int CompareTo(Energy other) => KilowattHours.CompareTo(other.KilowattHours);
}
