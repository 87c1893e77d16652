namespace ScheduleOpt.Core;

/// <summary>Energy in the battery over its usable energy, a fraction in [0, 1].</summary>
/// <remarks><c>default</c> is zero: an empty battery. Screens show it in per cent, code and API as the fraction.</remarks>
public readonly record struct StateOfCharge : IComparable<StateOfCharge>
{
    private StateOfCharge(double fraction) => Fraction = fraction;

    /// <summary>The fraction of usable energy, in [0, 1].</summary>
    public double Fraction { get; }

    /// <summary>Makes a state of charge from a fraction.</summary>
    /// <param name="fraction">In [0, 1].</param>
    /// <exception cref="ArgumentOutOfRangeException">The fraction is outside [0, 1] or not a number.</exception>
    public static StateOfCharge FromFraction(double fraction) =>
        fraction is >= 0 and <= 1
            ? new(fraction)
            : throw new ArgumentOutOfRangeException(nameof(fraction), fraction, "A state of charge must lie in 0 to 1.");

    /// <summary>The energy this state means in a battery of the given usable energy. [kWh]</summary>
    public Energy Of(Energy usable) => usable * Fraction;

    /// <inheritdoc/>
    public int CompareTo(StateOfCharge other) => Fraction.CompareTo(other.Fraction);

    /// <summary>Whether the left state is lower.</summary>
    public static bool operator <(StateOfCharge left, StateOfCharge right) => left.Fraction < right.Fraction;

    /// <summary>Whether the left state is higher.</summary>
    public static bool operator >(StateOfCharge left, StateOfCharge right) => left.Fraction > right.Fraction;

    /// <summary>Whether the left state is lower or equal.</summary>
    public static bool operator <=(StateOfCharge left, StateOfCharge right) => left.Fraction <= right.Fraction;

    /// <summary>Whether the left state is higher or equal.</summary>
    public static bool operator >=(StateOfCharge left, StateOfCharge right) => left.Fraction >= right.Fraction;
}
