using System.Globalization;
using System.Security.Cryptography;
using System.Text;

namespace HandFhirBridge.Outcomes.Deidentification;

/// <summary>Secret of one project: one person has one pseudonym in it, and another in every other project.</summary>
public sealed class ProjectKey
{
    private const int Length = 32;

    // A person's days are moved by at least one and at most this many; every number is as likely as another, but for one part in 10^16.
    private const int LongestShift = 365;

    private readonly byte[] secret;

    private ProjectKey(byte[] secret) => this.secret = secret;

    /// <summary>A key that is kept nowhere: pseudonyms of one output cannot be joined with those of another.</summary>
    public static ProjectKey ForOnce() => new(RandomNumberGenerator.GetBytes(Length));

    /// <summary>Makes a key file that its owner alone may read.</summary>
    /// <param name="path">File, which must not exist.</param>
    /// <exception cref="IOException">It exists or cannot be written.</exception>
    public static void Create(string path)
    {
        var options = new FileStreamOptions { Mode = FileMode.CreateNew, Access = FileAccess.Write };
        if (!OperatingSystem.IsWindows())
        {
            options.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
        }

        using var file = new StreamWriter(path, Encoding.ASCII, options);
        file.WriteLine(Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(Length)));
    }

    /// <summary>Reads a key file: 64 hexadecimal digits or more.</summary>
    /// <param name="path">The file.</param>
    /// <exception cref="DeidentificationException">There is none, or it holds no key.</exception>
    public static ProjectKey Read(string path)
    {
        string text;
        try
        {
            text = File.ReadAllText(path).Trim();
        }
        catch (Exception missing) when (missing is IOException or UnauthorizedAccessException)
        {
            throw new DeidentificationException(DeidentificationProblems.KeyNotReadable.At("", $"The key file {path} cannot be read."), missing);
        }

        return text.Length >= 2 * Length && text.Length % 2 == 0 && text.All(char.IsAsciiHexDigit)
            ? new(Convert.FromHexString(text))
            : throw new DeidentificationException(DeidentificationProblems.KeyUnusable.At("", $"The key file {path} does not hold at least {2 * Length} hexadecimal digits."));
    }

    /// <summary>Pseudonym: the first 128 bits of HMAC-SHA-256 (RFC 2104, FIPS 180-4) in hexadecimal; a valid FHIR id.</summary>
    /// <param name="kind">What is named, such as a resource type; equal names of two kinds have different pseudonyms.</param>
    /// <param name="names">What names it, all together.</param>
    public string Pseudonym(string kind, params ReadOnlySpan<string> names) => Convert.ToHexStringLower(Code(kind, names).AsSpan(0, 16));

    /// <summary>Days that a patient's dates are moved back by, 1 to 365.</summary>
    /// <param name="names">What names the patient.</param>
    public int DaysBack(params ReadOnlySpan<string> names) => 1 + (int)(BitConverter.ToUInt64(Code("days", names)) % LongestShift);

    // The length before each name keeps "a" + "bc" apart from "ab" + "c".
    private byte[] Code(string kind, ReadOnlySpan<string> names)
    {
        var text = new StringBuilder().Append(CultureInfo.InvariantCulture, $"{kind.Length}:{kind}");
        foreach (var name in names)
        {
            text.Append(CultureInfo.InvariantCulture, $"{name.Length}:{name}");
        }

        return HMACSHA256.HashData(secret, Encoding.UTF8.GetBytes(text.ToString()));
    }
}
