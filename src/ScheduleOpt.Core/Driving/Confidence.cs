namespace ScheduleOpt.Core.Driving;

/// <summary>How much above the mean a trip's energy is planned, for a stated confidence.</summary>
public static class Confidence
{
    // Wichura, Algorithm AS 241, Applied Statistics 37 (1988) 477-484, doi 10.2307/2347330, PPND16: about 1 part in 10^16.
    private static readonly double[] CentralA =
    [
        3.3871328727963665, 133.14166789178438, 1971.5909503065513, 13731.69376550946,
        45921.95393154987, 67265.7709270087, 33430.57558358813, 2509.0809287301227,
    ];

    private static readonly double[] CentralB =
    [
        1, 42.31333070160091, 687.1870074920579, 5394.196021424751,
        21213.794301586597, 39307.89580009271, 28729.085735721943, 5226.495278852854,
    ];

    private static readonly double[] MiddleC =
    [
        1.4234371107496835, 4.630337846156546, 5.769497221460691, 3.6478483247632045,
        1.2704582524523684, 0.2417807251774506, 0.022723844989269184, 0.0007745450142783414,
    ];

    private static readonly double[] MiddleD =
    [
        1, 2.053191626637759, 1.6763848301838038, 0.6897673349851,
        0.14810397642748008, 0.015198666563616457, 0.0005475938084995345, 1.0507500716444169E-09,
    ];

    private static readonly double[] TailE =
    [
        6.657904643501103, 5.463784911164114, 1.7848265399172913, 0.29656057182850487,
        0.026532189526576124, 0.0012426609473880784, 2.7115555687434876E-05, 2.0103343992922881E-07,
    ];

    private static readonly double[] TailF =
    [
        1, 0.599832206555888, 0.1369298809227358, 0.014875361290850615,
        0.0007868691311456133, 1.8463183175100548E-05, 1.421511758316446E-07, 2.0442631033899397E-15,
    ];

    /// <summary>The factor on the mean trip energy: 1 + z * spread, where z is the normal quantile of the confidence.</summary>
    /// <param name="confidence">The share of such trips that should be covered, in [0.5, 0.999].</param>
    /// <param name="spread">Standard deviation over mean, see <see cref="Consumption.Spread"/>.</param>
    /// <example>0.9 with a spread of 0.10: 1.1282.</example>
    /// <exception cref="ArgumentOutOfRangeException">The confidence is outside its range.</exception>
    public static double Factor(double confidence, double spread) =>
        confidence is >= 0.5 and <= 0.999
            ? 1 + (NormalQuantile(confidence) * spread)
            : throw new ArgumentOutOfRangeException(nameof(confidence), confidence, "A confidence must lie in 0.5 to 0.999.");

    internal static double NormalQuantile(double p)
    {
        var q = p - 0.5;
        if (Math.Abs(q) <= 0.425)
        {
            var r = 0.180625 - (q * q);
            return q * Polynomial(CentralA, r) / Polynomial(CentralB, r);
        }

        var tail = Math.Sqrt(-Math.Log(q < 0 ? p : 1 - p));
        var value = tail <= 5
            ? Polynomial(MiddleC, tail - 1.6) / Polynomial(MiddleD, tail - 1.6)
            : Polynomial(TailE, tail - 5) / Polynomial(TailF, tail - 5);
        return q < 0 ? -value : value;
    }

    private static double Polynomial(double[] coefficients, double x)
    {
        var sum = 0.0;
        for (var i = coefficients.Length - 1; i >= 0; i--)
        {
            sum = (sum * x) + coefficients[i];
        }

        return sum;
    }
}
