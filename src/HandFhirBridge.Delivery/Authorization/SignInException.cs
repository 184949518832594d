namespace HandFhirBridge.Delivery.Authorization;

/// <summary>The bridge could not sign in to a target. The message names what failed and never holds a secret or token.</summary>
public sealed class SignInException : Exception
{
    /// <summary>With no message.</summary>
    public SignInException()
    {
    }

    /// <summary>With a sentence that says what failed and what to do.</summary>
    public SignInException(string message)
        : base(message)
    {
    }

    /// <summary>With a sentence and its cause.</summary>
    public SignInException(string message, Exception innerException)
        : base(message, innerException)
    {
    }
}
